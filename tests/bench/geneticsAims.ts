/** What the genetics should reach, beside what they do, and what others were measured at. Set before measuring. */
import type { GeneticsFigures } from './genetics.ts';
import type { Aim } from './main.ts';

/** Time at most, in ms, of each thing that is measured; the greatest that is still acceptable, where there is one. */
const limits: readonly (readonly [name: string, limit: number, acceptable?: number])[] = [
	['kinship 5000 broods', 100],
	['kinship 5000 single young', 100],
	['kinship 10000 broods', 150, 300],
	['kinship 10000 single young', 150, 300],
	['kinship 20000 broods', 700, 1_000],
	['kinship 20000 single young', 700, 1_000],
	['inbreeding 10000 broods', 25],
	['inbreeding 10000 single young', 25],
	['inbreeding 20000 broods', 80],
	['inbreeding 20000 single young', 80],
	['inbreeding 100000 broods', 3_000],
	['inbreeding 100000 single young', 3_000],
	['living', 20],
	['one more brood', 1],
	['one more split', 1],
	['one more merge', 1],
	['one more bag', 1],
	['lineFigures all first', 100],
	['lineFigures all again', 100],
	['lineFigures of the last two years first', 100],
	['lineFigures of the last two years again', 100]
];

/** Seconds on another machine of 2 cores, one process: published packages for R, for comparison only. */
export const references = [
	{
		what: 'full kinship, R package kinship2',
		fish: [1_000, 5_000, 10_000, 20_000],
		seconds: [0.15, 3.2, 15.2, 144]
	},
	{
		what: 'inbreeding alone, R package pedigreemm',
		fish: [1_000, 5_000, 10_000, 20_000, 100_000],
		seconds: [0.001, 0.006, 0.039, 0.166, 8.5]
	}
];

export function geneticsAims({ tasks }: GeneticsFigures): Aim[] {
	return limits.flatMap(([name, limit, acceptable]) =>
		(['node', 'browser'] as const).map((where): Aim => {
			const found = tasks
				.flatMap((task) => task[where]?.measured ?? [])
				.find((measured) => measured.name === name);
			const measured = found?.median ?? null;
			const place = where === 'node' ? 'Node' : 'Chromium’s worker';
			const more = acceptable === undefined ? '' : `, acceptable ${acceptable}`;
			return {
				what: `${found?.what ?? name}, ${place}, median${more}`,
				...{ limit, unit: 'ms', measured, isReached: measured !== null && measured <= limit }
			};
		})
	);
}
