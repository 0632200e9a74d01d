/**
 * What the genetics bench measures, for Node and for a browser's worker alike: nothing here knows where it runs. Times
 * in ms. Each task first makes what it works on; what it takes before that is not measured.
 */
import { founderContributions } from '#genetics/diversity/founderContributions.ts';
import { founderEquivalents } from '#genetics/diversity/founderEquivalents.ts';
import { founderGenomeEquivalents } from '#genetics/diversity/founderGenomeEquivalents.ts';
import { geneDiversity } from '#genetics/diversity/geneDiversity.ts';
import { meanKinships } from '#genetics/diversity/meanKinships.ts';
import type { GroupEvent } from '#genetics/groups/event.ts';
import { groupKinship } from '#genetics/groups/groupKinship.ts';
import { inbreeding } from '#genetics/individuals/inbreeding.ts';
import { kinship } from '#genetics/individuals/kinship.ts';
import { kinshipTable } from '#club/lines/kinshipTable.ts';
import { lineFamily } from '#club/lines/lineFamily.ts';
import { lineFigures } from '#club/lines/lineFigures.ts';
import { benchLine, otherLines } from './geneticsClub.ts';
import { groupHistory, oneMoreOf } from './geneticsGroups.ts';
import { benchPedigree, shapeWords, type PedigreeShape } from './geneticsPedigree.ts';

export interface Measured {
	/** What was done, and a short name of it for aims. */
	readonly what: string;
	readonly name: string;
	/** The first time, in fresh memory or with code that has never run; null = not told apart. */
	readonly first: number | null;
	/** After a warm-up. */
	readonly median: number;
	/** The quickest: where others are at work, it says most about the code itself. */
	readonly least: number;
	readonly greatest: number;
	readonly runs: number;
	/** What came out, so that nobody need believe that it was computed. */
	readonly result: string;
}
export interface Prepared {
	/** What it works on, in words. */
	readonly on: string;
	run(): Measured[];
}

/** Names of all tasks with what each makes ready. */
export const tasks: Readonly<Record<string, () => Prepared>> = {
	'kinship of 5,000': () => kinshipOf(5_000),
	'kinship of 10,000': () => kinshipOf(10_000),
	'kinship of 20,000': () => kinshipOf(20_000),
	'inbreeding of 10,000': () => inbreedingOf(10_000),
	'inbreeding of 20,000': () => inbreedingOf(20_000),
	'inbreeding of 100,000': () => inbreedingOf(100_000),
	'figures of the living out of 100,000': livingOutOf100000,
	'one more row for 400 units': oneMoreRow,
	'line of 400 groups, all living': () => lineOf('all'),
	'line of 400 groups, the last two years living': () => lineOf('of the last two years')
};

/** Broods, as fish have them; and one young a brood, which is the hardest: nobody shares anything. */
const shapes = [
	{ kind: 'broods', meanBrood: 5 },
	{ kind: 'single young', meanBrood: 1 }
] as const;
const shapeOf = (fish: number, meanBrood: number): PedigreeShape => ({
	...{ fish, years: 56, oldestParent: 4, meanBrood, seed: 1 }
});

function timed(work: () => void): number {
	const start = performance.now();
	work();
	return performance.now() - start;
}

function measured(name: string, what: string, first: number | null, ms: readonly number[], result: string) {
	const sorted = ms.toSorted((a, b) => a - b);
	return {
		...{ name, what, first, result, runs: ms.length },
		...{ median: sorted[sorted.length >> 1] ?? NaN, least: sorted[0] ?? NaN, greatest: sorted.at(-1) ?? NaN }
	};
}

const times = (runs: number, work: (run: number) => void): number[] =>
	Array.from({ length: runs }, (_, run) => timed(() => work(run)));

function kinshipOf(fish: number): Prepared {
	const made = shapes.map(({ kind, meanBrood }) => {
		const shape = shapeOf(fish, meanBrood);
		return { kind, shape, pedigree: benchPedigree(shape) };
	});
	return {
		on: made.map(({ shape }) => shapeWords(shape)).join('; or '),
		run() {
			// The code is warm, the memory is not.
			for (const { meanBrood } of shapes)
				kinship(benchPedigree(shapeOf(600, meanBrood)), new Float32Array(360_000));
			let memory: Float32Array | null = null;
			return made.map(({ kind, pedigree }) => {
				let first: number | null = null;
				if (memory === null) {
					first = timed(() => {
						memory = new Float32Array(fish * fish);
						kinship(pedigree, memory);
					});
				}
				const pool = memory!;
				const ms = times(7, () => void kinship(pedigree, pool));
				const result = `the last two are related ${pool[fish * fish - 2]!.toFixed(4)}`;
				return measured(
					`kinship ${fish} ${kind}`,
					`full kinship of ${fish} fish, ${kind}, single precision`,
					...[first, ms, result]
				);
			});
		}
	};
}

function inbreedingOf(fish: number): Prepared {
	const made = shapes.map(({ kind, meanBrood }) => {
		const shape = shapeOf(fish, meanBrood);
		return { kind, shape, pedigree: benchPedigree(shape) };
	});
	return {
		on: made.map(({ shape }) => shapeWords(shape)).join('; or '),
		run: () =>
			made.map(({ kind, pedigree }) => {
				let F: Float64Array = new Float64Array(0);
				const first = timed(() => (F = inbreeding(pedigree)));
				const ms = times(first > 1_000 ? 4 : 11, () => (F = inbreeding(pedigree)));
				const mean = F.reduce((sum, one) => sum + one, 0) / fish;
				return measured(
					`inbreeding ${fish} ${kind}`,
					`inbreeding of all ${fish} fish, ${kind}`,
					...[first, ms, `mean ${mean.toFixed(6)}`]
				);
			})
	};
}

function livingOutOf100000(): Prepared {
	const shape = shapeOf(100_000, 5);
	const pedigree = benchPedigree(shape);
	const F = inbreeding(pedigree);
	// Those born in the last three years.
	const count = Math.round((3 * shape.fish) / shape.years);
	const living = Int32Array.from({ length: count }, (_, k) => shape.fish - count + k);
	let result = '';
	const all = () => {
		const { mean } = meanKinships(pedigree, F, living);
		const { shares, unknownParents } = founderContributions(pedigree, living);
		const founders = founderEquivalents([...shares, ...unknownParents]);
		const like = founderGenomeEquivalents(mean);
		result = `gene diversity ${geneDiversity(mean).toFixed(6)}, founders ${founders.toFixed(2)}, genomes ${like.toFixed(2)}`;
	};
	return {
		on: `${shapeWords(shape)}; the ${count} fish of the last three years live`,
		run() {
			const first = timed(all);
			const ms = times(25, all);
			const what = 'mean kinship of all living, gene diversity, founders’ shares and equivalents, F known';
			return [measured('living', what, first, ms, result)];
		}
	};
}

function oneMoreRow(): Prepared {
	const events = groupHistory(400, 1);
	const table = groupKinship(events);
	return {
		on: `a line of ${table.units.length} units: founders, spawns with one to three possible fathers, splits, merges`,
		run: () =>
			(['brood', 'split', 'merge', 'bag'] as const).map((sort) => {
				let result = '';
				const one = (run: number) => {
					const event: readonly GroupEvent[] = oneMoreOf(table, sort, run);
					return timed(() => {
						const { self } = groupKinship(event, table);
						result = `mean inbreeding ${(2 * self.at(-1)! - 1).toFixed(4)}`;
					});
				};
				const first = one(0);
				for (let run = 1; run < 50; run++) one(run);
				const ms = Array.from({ length: 201 }, (_, run) => one(run + 50));
				return measured(`one more ${sort}`, `one more ${sort}`, first, ms, result);
			})
	};
}

function lineOf(living: 'all' | 'of the last two years'): Prepared {
	const made = benchLine({ groups: 400, living, seed: 3 });
	const { fold, line, now, oneMore } = made;
	const asking = { now, me: 'officer', fold };
	/** Earlier tables are forgotten when so many other lines have been asked about. */
	const forget = () => {
		for (const other of otherLines) lineFigures(fold.state, { line: other }, asking);
	};
	const questions = { lineFigures, kinshipTable, lineFamily };
	const names = {
		lineFigures: 'the whole page of figures',
		kinshipTable: 'the kinship table',
		lineFamily: 'the family drawing’s groups and broods'
	};
	const whose = living === 'all' ? 'all groups living' : 'groups of two years living';
	const ask = (question: keyof typeof questions) => questions[question](fold.state, { line }, asking);
	return {
		on: made.words,
		run: () =>
			(['lineFigures', 'kinshipTable', 'lineFamily'] as const).flatMap((question) => {
				forget();
				const first = timed(() => ask(question));
				const anew = Array.from({ length: 9 }, () => {
					forget();
					return timed(() => ask(question));
				});
				const after = Array.from({ length: 9 }, () => {
					oneMore();
					return timed(() => ask(question));
				});
				const result = resultOf(ask('lineFigures'));
				const named = `${question} ${living}`;
				return [
					measured(
						`${named} first`,
						`${names[question]}, ${whose}, nothing kept from before`,
						first,
						anew,
						result
					),
					measured(
						`${named} again`,
						`${names[question]}, ${whose}, after one more brood or bag`,
						null,
						after,
						result
					)
				];
			})
	};
}

function resultOf(
	answer: ReturnType<(typeof import('#club/lines/lineFigures.ts'))['lineFigures']> | object | null
): string {
	if (!answer || !('groups' in answer) || !('diversity' in answer)) return '';
	const diversity = answer.diversity?.expected.toFixed(4) ?? 'none';
	return `${answer.groups.length} living groups, gene diversity ${diversity}`;
}
