import type { GroupKinship } from '#genetics/groups/table.ts';
import { drawnDifferent, meanSelf, pairSum, weighed, type Counted, type Entries } from './weighing.ts';

/** Fish that are drawn from together. */
export interface Pool {
	/** The name of the unit that they become. */
	readonly unit: string;
	readonly fish: readonly Counted[];
}

/** More breeders of one sex than this are not kept by a room; own choice, a figure of one room is near it. */
const mostBreeders = 10;

/** Pools table: a small table of these pools alone, each a unit, with so many breeders as a room keeps. */
export function poolsTable(entries: Entries, pools: readonly Pool[]): GroupKinship {
	const units = pools.map(({ unit }) => unit);
	return {
		units,
		index: new Map(units.map((unit, i) => [unit, i])),
		count: pools.map(({ fish }) => breedersOf(fish)),
		emptied: pools.map(() => false),
		self: pools.map(({ fish }) => weighed(entries, meanSelf(fish))),
		within: pools.map(({ fish }) => weighed(entries, drawnDifferent(fish))),
		between: pools.map(({ fish }, i) =>
			Float64Array.from(pools.slice(0, i), (other) => pairSum(entries, fish, other.fish))
		)
	};
}

/** So many of these fish breed. */
export function breedersOf(fish: readonly Counted[]): number {
	return Math.min(
		mostBreeders,
		fish.reduce((sum, one) => sum + one.fish, 0)
	);
}
