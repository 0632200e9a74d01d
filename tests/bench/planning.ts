/** The planning's figures: how soon a plan is there, when it is proven, planned again, and futures played. */
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { chromiumThere } from '#tests/helpers/findChromium.ts';
import { withBrowser, type TaskInBrowser } from './benchBrowser.ts';
import type { Measured } from './geneticsMeasure.ts';
import type { Aim, Bench } from './main.ts';
import { planningTasks } from './planningMeasure.ts';

interface TaskInNode {
	readonly on: string;
	readonly measured: readonly Measured[];
	readonly bytesBefore: number;
	readonly bytesMost: number;
}
interface PlanningFigures {
	readonly tasks: readonly {
		readonly task: string;
		readonly on: string;
		readonly node: TaskInNode;
		/** Null where no Chromium was found. */
		readonly browser: TaskInBrowser | null;
	}[];
}

function inNode(task: string): TaskInNode {
	const made = spawnSync(process.execPath, [join(import.meta.dirname, 'planningNode.ts'), task], {
		encoding: 'utf8'
	});
	if (made.status !== 0) throw new Error(`${task} could not be measured:\n${made.stderr}`);
	return JSON.parse(made.stdout) as TaskInNode;
}

async function run(tell: (step: string) => void): Promise<PlanningFigures> {
	const measure = async (inBrowser: ((task: string) => Promise<TaskInBrowser>) | null) => {
		const tasks: PlanningFigures['tasks'][number][] = [];
		for (const task of Object.keys(planningTasks)) {
			tell(`${task}: in Node`);
			const node = inNode(task);
			if (inBrowser) tell(`${task}: in Chromium’s worker`);
			tasks.push({ task, on: node.on, node, browser: (await inBrowser?.(task)) ?? null });
		}
		return { tasks };
	};
	const chromium = chromiumThere();
	return chromium ? await withBrowser(chromium, measure, 'planningWorker.ts') : await measure(null);
}

const ms = (value: number) => `${value < 10 ? value.toFixed(2) : value.toFixed(0)} ms`;

function lines(given: object): string[] {
	return (given as PlanningFigures).tasks.flatMap(({ task, on, node, browser }) => [
		`${task}: ${on}`,
		...node.measured.map((one) => `  Node: ${figureLine(one)}`),
		...(browser === null
			? ['  no Chromium found: not measured in a browser']
			: browser.problem !== null
				? [`  Chromium’s worker: could not be measured: ${browser.problem}`]
				: browser.measured.map((one) => `  Chromium’s worker: ${figureLine(one)}`))
	]);
}

function figureLine({ what, first, median, least, greatest, runs, result }: Measured): string {
	const cold = first === null ? '' : `the first time ${ms(first)}, then `;
	const spread = runs === 1 ? '' : ` (${ms(least)} to ${ms(greatest)} in ${runs} runs)`;
	return `${what}: ${cold}${ms(median)}${spread}; ${result}`;
}

/** Times at most, set before measuring; a plan that was not proven has not reached its aim. */
const limits: readonly (readonly [name: string, limitMs: number])[] = [
	['first 12 rooms, 5 lines', 1_000],
	['first 40 rooms, 12 lines', 1_000],
	['proven 12 rooms, 5 lines', 5_000],
	['edit 12 rooms, 5 lines', 500],
	['edit usable 40 rooms, 12 lines', 500],
	['futures ring random', 10_000],
	['futures leastRelated random', 10_000],
	['futures leastRelated even', 10_000]
];

function aims(given: object): Aim[] {
	const { tasks } = given as PlanningFigures;
	return limits.flatMap(([name, limit]) =>
		(['node', 'browser'] as const).map((where): Aim => {
			const found = tasks.flatMap((task) => task[where]?.measured ?? []).find((one) => one.name === name);
			const isProven = !found?.result.includes('not proven');
			const measured = found ? (found.first ?? found.median) : null;
			return {
				what: `${found?.what ?? name}, ${where === 'node' ? 'Node' : 'Chromium’s worker'}`,
				...{ limit, unit: 'ms', measured },
				isReached: measured !== null && measured <= limit && isProven
			};
		})
	);
}

export const bench: Bench = { run, lines, aims };
