/** The genetics' figures: time and memory of kinship, inbreeding, groups and a line's page, in Node and in a browser. */
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { chromiumThere } from '#tests/helpers/findChromium.ts';
import { geneticsAims, references } from './geneticsAims.ts';
import { withBrowser, type TaskInBrowser } from './benchBrowser.ts';
import { tasks as all, type Measured } from './geneticsMeasure.ts';
import type { Aim, Bench } from './main.ts';

interface TaskInNode {
	readonly on: string;
	readonly measured: readonly Measured[];
	readonly bytesBefore: number;
	/** Null where the system does not tell. */
	readonly bytesMost: number | null;
}
export interface GeneticsFigures {
	/** On another machine: published figures, for comparison only. */
	readonly references: typeof references;
	readonly tasks: readonly {
		readonly task: string;
		/** The pedigree or club it works on, made by the bench. */
		readonly on: string;
		readonly node: TaskInNode;
		/** Null where no Chromium was found. */
		readonly browser: TaskInBrowser | null;
	}[];
}

function inNode(task: string): TaskInNode {
	const file = join(import.meta.dirname, 'geneticsNode.ts');
	const made = spawnSync(process.execPath, ['--expose-gc', file, task], { encoding: 'utf8' });
	if (made.status !== 0) throw new Error(`${task} could not be measured:\n${made.stderr}`);
	return JSON.parse(made.stdout) as TaskInNode;
}

async function run(tell: (step: string) => void): Promise<GeneticsFigures> {
	const measure = async (inBrowser: ((task: string) => Promise<TaskInBrowser>) | null) => {
		const tasks: GeneticsFigures['tasks'][number][] = [];
		for (const task of Object.keys(all)) {
			tell(`${task}: in Node`);
			const node = inNode(task);
			if (inBrowser) tell(`${task}: in Chromium’s worker`);
			tasks.push({ task, on: node.on, node, browser: (await inBrowser?.(task)) ?? null });
		}
		return { references, tasks };
	};
	const chromium = chromiumThere();
	return chromium ? await withBrowser(chromium, measure) : await measure(null);
}

const ms = (value: number) => `${value < 10 ? value.toFixed(3) : value.toFixed(0)} ms`;
const mb = (bytes: number | null) => (bytes === null ? 'not told' : `${(bytes / 1e6).toFixed(0)} MB`);

function lines(given: object): string[] {
	const { tasks } = given as GeneticsFigures;
	const known = references.map(({ what, fish, seconds }) => {
		const each = fish.map((n, i) => `${n.toLocaleString('en')} fish ${seconds[i]} s`);
		return `Reference on another machine: ${what}: ${each.join(', ')}`;
	});
	return [
		...tasks.flatMap(({ task, on, node, browser }) => [
			`${task}: ${on}`,
			...placeLines('Node', node),
			...(browser
				? placeLines('Chromium’s worker', browser)
				: ['  no Chromium found: not measured in a browser'])
		]),
		...known
	];
}

function placeLines(place: string, of: TaskInNode | TaskInBrowser): string[] {
	if ('problem' in of && of.problem !== null) return [`  ${place}: could not be measured: ${of.problem}`];
	return [
		...of.measured.map(({ what, first, median, least, greatest, runs, result }) => {
			const cold = first === null ? '' : `the first time ${ms(first)}, then `;
			return `  ${place}: ${what}: ${cold}${ms(median)} (${ms(least)} to ${ms(greatest)} in ${runs} runs); ${result}`;
		}),
		`  ${place}: memory of the process ${mb(of.bytesBefore)} before, ${mb(of.bytesMost)} at the most`
	];
}

const aims = (given: object): Aim[] => geneticsAims(given as GeneticsFigures);

export const bench: Bench = { run, lines, aims };
