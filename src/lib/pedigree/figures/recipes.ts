/**
 * How each unit of a table came about, as what its entries are made of. The recursion is linear in the entries, so
 * that a figure can be followed back along these recipes (`tracedBack.ts`) and bounded along them (`boundsOf.ts`).
 */
import type { GroupEvent, ParentSide, SpawnEvent, UnitId } from '#genetics/groups/event.ts';
import type { Entries } from './weighing.ts';

/** One candidate parent, or one unit that the fish came from. */
export interface Source {
	/** null = an outside fish. */
	readonly unit: number | null;
	readonly weight: number;
	/** Chance that a fish of it that came and one that it held are the same; 0 where those that stayed are others. */
	readonly same: number;
	/** Chance that two of the parents drawn from it are one fish. */
	readonly twice: number;
}
export interface SideRecipe {
	readonly sources: readonly Source[];
	readonly draw: 'one' | 'several';
}
export interface Recipe {
	readonly kind: 'founders' | 'spawn' | 'split' | 'merge';
	readonly event: number;
	/** Numbers of the units that came about: several for the young of one spawn, one otherwise. */
	readonly units: readonly number[];
	/** Founders: kinship as told. */
	readonly within: number;
	readonly related: ReadonlyMap<number, number>;
	readonly assumed: boolean;
	readonly atMost: number;
	/** Spawns: the two sides. Splits and merges: where the fish came from stands in `fathers`. */
	readonly fathers: SideRecipe;
	readonly mothers: SideRecipe;
	/** Merges: fish of each source, and of all. */
	readonly fish: readonly number[];
}

const nobody: SideRecipe = { sources: [], draw: 'several' };
const plain = {
	...{ within: 0, related: new Map<number, number>(), assumed: false, atMost: 0 },
	...{ fathers: nobody, mothers: nobody, fish: [] as readonly number[] }
};

/** @param events of `lineEvents`: founders, spawns without names, splits, merges and counts */
export function recipesOf(events: readonly GroupEvent[], index: ReadonlyMap<UnitId, number>): Recipe[] {
	const count = new Map<UnitId, number>();
	const at = (unit: UnitId) => {
		const position = index.get(unit);
		if (position === undefined) throw new RangeError(`recipesOf requires units of the table, got ${unit}`);
		return position;
	};
	return events.flatMap((event, place): Recipe[] => {
		if (event.kind === 'count') {
			if (event.count > 0) count.set(event.unit, event.count);
			return [];
		}
		if (event.kind === 'founders') {
			count.set(event.unit, event.count);
			const related = new Map((event.related ?? []).map(({ unit, kinship }) => [at(unit), kinship]));
			const within = event.within ?? 0;
			const guess = { within, related, assumed: event.assumed ?? false, atMost: event.atMost ?? within };
			return [{ ...plain, kind: 'founders', event: place, units: [at(event.unit)], ...guess }];
		}
		if (event.kind === 'split') {
			const held = count.get(event.from) ?? event.count;
			const isAll = held === event.count;
			const source = { unit: at(event.from), weight: 1, same: isAll ? 1 / held : 0, twice: 0 };
			count.set(event.unit, event.count);
			if (!isAll) count.set(event.from, held - event.count);
			const fathers: SideRecipe = { sources: [source], draw: 'several' };
			return [{ ...plain, kind: 'split', event: place, units: [at(event.unit)], fathers }];
		}
		if (event.kind === 'merge') {
			const fish = event.of.map((unit) => count.get(unit) ?? 1);
			const all = fish.reduce((sum, one) => sum + one, 0);
			count.set(event.unit, all);
			const sources = event.of.map((unit, i) => ({
				...{ unit: at(unit), weight: fish[i]! / all, same: 1 / fish[i]!, twice: 0 }
			}));
			const fathers: SideRecipe = { sources, draw: 'several' };
			return [{ ...plain, kind: 'merge', event: place, units: [at(event.unit)], fathers, fish }];
		}
		if (event.kind !== 'spawn')
			throw new RangeError(`recipesOf requires events of lineEvents, got ${event.kind}`);
		const fathers = sideRecipe(event.fathers, event.mothers, count, at);
		const mothers = sideRecipe(event.mothers, event.fathers, count, at);
		for (const { unit, count: young } of event.young) count.set(unit, young);
		const units = event.young.map(({ unit }) => at(unit));
		return [{ ...plain, kind: 'spawn', event: place, units, fathers, mothers }];
	});
}

function sideRecipe(
	side: ParentSide,
	other: SpawnEvent['fathers'],
	count: ReadonlyMap<UnitId, number>,
	at: (unit: UnitId) => number
): SideRecipe {
	const total = side.from.reduce((sum, { weight }) => sum + weight, 0);
	const sources = side.from.map(({ unit, weight }) => {
		if (unit === null) return { unit, weight: weight / total, same: 1, twice: 1 };
		const n = count.get(unit) ?? 1;
		// One sex of a unit of unknown sexes is half of it, either half if the number is odd: as in the recursion.
		const isHalf = other.from.some((share) => share.unit === unit);
		const twice = isHalf ? (1 / Math.floor(n / 2) + 1 / Math.ceil(n / 2)) / 2 : 1 / n;
		return { unit: at(unit), weight: weight / total, same: 1 / n, twice };
	});
	return { sources, draw: side.draw };
}

/** An outside fish has unrelated parents. */
export const outsideSelf = 0.5;

/** Kinship of two units, of which the fish are different ones. */
export function pairOf(entries: Entries, a: number | null, b: number | null): number {
	if (a === null || b === null) return 0;
	if (a === b) return entries.within[a]!;
	return a > b ? entries.between[a]![b]! : entries.between[b]![a]!;
}

/** Two draws that meet the same fish with this chance. */
export function twoOf(entries: Entries, unit: number | null, same: number): number {
	if (unit === null) return same * outsideSelf;
	return same * entries.self[unit]! + (1 - same) * entries.within[unit]!;
}
export function selfOf(entries: Entries, unit: number | null): number {
	return unit === null ? outsideSelf : entries.self[unit]!;
}
