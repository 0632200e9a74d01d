/** Ways of swapping simulated anew, row by row, beside figures from another program: the whole table, minutes of it. */
import { simulateExchange } from '#planning/simulateExchange.ts';
import type { Bench } from './main.ts';
import { breederCounts, strategyRows, type StrategyRow } from './strategiesTable.ts';

interface Cell {
	readonly way: string;
	readonly rooms: number;
	readonly breeders: number;
	readonly replicates: number;
	readonly inbreeding: number;
	readonly inbreedingSE: number;
	readonly geneDiversity: number;
	readonly geneDiversitySE: number;
	readonly printed: { readonly inbreeding: number; readonly geneDiversity: number };
	/** As near as chance allows; all together: at least as good as printed. */
	readonly isReached: boolean;
}

const generations = 20;
const lambda = 0.1;
const seed = 64;
/** As many replicates as the printed figures have, or what goes into this time. */
const mostReplicates = 400;
const leastReplicates = 4;
const millisecondsEach = 2_000;
const roomCounts = [6, 8, 12] as const;

function cell(row: StrategyRow, rooms: (typeof roomCounts)[number], place: number): Cell {
	const breeders = breederCounts[place]!;
	const strategy = { rooms, breedersPerRoom: breeders, ...row.way, lambda, bagEvery: 1 };
	const began = performance.now();
	simulateExchange(strategy, generations, 1, seed - 1);
	const fits = Math.floor(millisecondsEach / (performance.now() - began));
	const replicates = Math.max(leastReplicates, Math.min(mostReplicates, fits));
	const course = simulateExchange(strategy, generations, replicates, seed);
	const inbreeding = course.inbreeding.at(-1)!;
	const inbreedingSE = course.inbreedingSE.at(-1)!;
	const geneDiversity = course.geneDiversity.at(-1)!;
	const geneDiversitySE = course.geneDiversitySE.at(-1)!;
	const [F, SE, GD, GDSE] = row.byRooms[rooms][place]!;
	// What is printed as 0 was rounded.
	const tolerance = (ours: number, printed: number) =>
		4 * Math.hypot(ours, Math.max(printed, 0.00005)) + 0.00005;
	const isReached =
		row.way.exchange === 'full'
			? 1 - geneDiversity + lambda * inbreeding <=
				1 -
					GD +
					lambda * F +
					tolerance(Math.hypot(geneDiversitySE, lambda * inbreedingSE), Math.hypot(GDSE, lambda * SE))
			: Math.abs(inbreeding - F) <= tolerance(inbreedingSE, SE) &&
				Math.abs(geneDiversity - GD) <= tolerance(geneDiversitySE, GDSE);
	return {
		...{
			way: row.name,
			rooms,
			breeders,
			replicates,
			inbreeding,
			inbreedingSE,
			geneDiversity,
			geneDiversitySE
		},
		printed: { inbreeding: F, geneDiversity: GD },
		isReached
	};
}

async function run(tell: (step: string) => void): Promise<{ cells: Cell[] }> {
	const cells: Cell[] = [];
	for (const rooms of roomCounts)
		for (const row of strategyRows) {
			tell(`${rooms} rooms: ${row.name}`);
			for (const place of breederCounts.keys()) cells.push(cell(row, rooms, place));
		}
	return Promise.resolve({ cells });
}

function lines(figures: object): string[] {
	const { cells } = figures as { cells: Cell[] };
	const reached = cells.filter((one) => one.isReached).length;
	const each = cells.map((one) => {
		const { way, rooms, breeders, replicates, inbreeding, inbreedingSE, geneDiversity, printed, isReached } =
			one;
		const ours = `F ${inbreeding.toFixed(4)} ± ${inbreedingSE.toFixed(4)}, diversity ${geneDiversity.toFixed(4)}`;
		const theirs = `printed ${printed.inbreeding} and ${printed.geneDiversity}`;
		return `${isReached ? 'as printed' : 'APART     '}: ${rooms} rooms x ${breeders}, ${way}: ${ours} (${replicates} replicates), ${theirs}`;
	});
	return [...each, `${reached} of ${cells.length} within what chance allows.`];
}

export const bench: Bench = {
	run,
	lines,
	aims(figures) {
		const { cells } = figures as { cells: Cell[] };
		const apart = cells.filter((one) => !one.isReached).length;
		return [
			{
				what: 'figures apart from the printed table',
				limit: 0,
				unit: 'cells',
				measured: apart,
				isReached: apart === 0
			}
		];
	}
};
