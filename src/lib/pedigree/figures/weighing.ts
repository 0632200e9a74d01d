/** Figures as weighted sums of a table's entries: the one form in which they are computed, bounded and traced back. */
import type { UnitId } from '#genetics/groups/event.ts';
import type { GroupKinship } from '#genetics/groups/table.ts';

export type Entries = Pick<GroupKinship, 'self' | 'within' | 'between'>;

/** The figure is the sum of weight times entry; units by their numbers in the table. */
export interface Weighing {
	readonly pairs: readonly (readonly [a: number, b: number, weight: number])[];
	readonly self: readonly (readonly [unit: number, weight: number])[];
	readonly within: readonly (readonly [unit: number, weight: number])[];
}

export interface Counted {
	readonly unit: number;
	/** Fish in it. */
	readonly fish: number;
}

/** Units by number with their fish of now, those that the table does not know left out. */
export function countedUnits(
	table: Pick<GroupKinship, 'index' | 'count'>,
	units: readonly UnitId[],
	fishNow: ReadonlyMap<UnitId, number>
): Counted[] {
	return [...new Set(units)].flatMap((id) => {
		const unit = table.index.get(id);
		return unit === undefined ? [] : [{ unit, fish: Math.max(1, fishNow.get(id) ?? table.count[unit] ?? 1) }];
	});
}

/** Counted loops: a page asks this some hundred thousand times, and taking lists apart would double what it costs. */
export function weighed(entries: Entries, { pairs, self, within }: Weighing): number {
	const { between } = entries;
	let sum = 0;
	for (let i = 0; i < pairs.length; i++) {
		const pair = pairs[i]!;
		const a = pair[0];
		const b = pair[1];
		sum += pair[2] * (a > b ? between[a]![b]! : between[b]![a]!);
	}
	for (let i = 0; i < self.length; i++) sum += self[i]![1] * entries.self[self[i]![0]]!;
	for (let i = 0; i < within.length; i++) sum += within[i]![1] * entries.within[within[i]![0]]!;
	return sum;
}

/** Two draws of which the second may be the same fish again: 1 minus this is gene diversity. */
export function drawnTwice(units: readonly Counted[]): Weighing {
	const fish = units.reduce((sum, one) => sum + one.fish, 0);
	return {
		pairs: units.flatMap((a, i) =>
			units.slice(0, i).map((b) => [a.unit, b.unit, (2 * a.fish * b.fish) / fish ** 2] as const)
		),
		self: units.map((one) => [one.unit, one.fish / fish ** 2]),
		within: units.map((one) => [one.unit, (one.fish * (one.fish - 1)) / fish ** 2])
	};
}

/** Two different fish; of a single fish, that fish with itself. */
export function drawnDifferent(units: readonly Counted[]): Weighing {
	const fish = units.reduce((sum, one) => sum + one.fish, 0);
	const only = units[0];
	if (fish < 2 && only) return { pairs: [], self: [[only.unit, 1]], within: [] };
	const all = fish * (fish - 1);
	return {
		pairs: units.flatMap((a, i) =>
			units.slice(0, i).map((b) => [a.unit, b.unit, (2 * a.fish * b.fish) / all] as const)
		),
		self: [],
		within: units.map((one) => [one.unit, (one.fish * (one.fish - 1)) / all])
	};
}

/** One fish of each side. A unit on both sides: two different fish of it, or the only one twice. */
export function drawnBetween(these: readonly Counted[], those: readonly Counted[]): Weighing {
	const total = (units: readonly Counted[]) => units.reduce((sum, one) => sum + one.fish, 0);
	const all = total(these) * total(those);
	const pairs: [number, number, number][] = [];
	const self: [number, number][] = [];
	const within: [number, number][] = [];
	for (const a of these)
		for (const b of those) {
			const weight = (a.fish * b.fish) / all;
			if (a.unit !== b.unit) pairs.push([a.unit, b.unit, weight]);
			else if (a.fish < 2) self.push([a.unit, weight]);
			else within.push([a.unit, weight]);
		}
	return { pairs, self, within };
}

/** Kinship of one fish of each side, of which none is on both: those of one unit are different fish of it. */
export function pairSum(entries: Entries, these: readonly Counted[], those: readonly Counted[]): number {
	let sum = 0;
	let all = 0;
	for (const a of these)
		for (const b of those) {
			const weight = a.fish * b.fish;
			all += weight;
			if (a.unit === b.unit) sum += weight * entries.within[a.unit]!;
			else
				sum +=
					weight * (a.unit > b.unit ? entries.between[a.unit]![b.unit]! : entries.between[b.unit]![a.unit]!);
		}
	return sum / all;
}

/**
 * Of each of these units: the mean kinship of a fish of it with all fish of all of them, itself included. The sum of
 * these, weighted by fish, is what `drawnTwice` weighs; here in one pass without a list of all pairs.
 */
export function meansWithAll(entries: Entries, units: readonly Counted[]): Float64Array {
	// In the order of the table each unit's kinship with those before it stands in one row.
	const order = Array.from(units, (_, i) => i).sort((i, j) => units[i]!.unit - units[j]!.unit);
	const numbers = Int32Array.from(order, (i) => units[i]!.unit);
	const counts = Float64Array.from(order, (i) => units[i]!.fish);
	const sums = new Float64Array(units.length);
	let fish = 0;
	for (let i = 0; i < numbers.length; i++) {
		const unit = numbers[i]!;
		const count = counts[i]!;
		fish += count;
		sums[i]! += entries.self[unit]! + (count - 1) * entries.within[unit]!;
		sums[i]! += meetRow(entries.between[unit]!, numbers, counts, sums, i);
	}
	const means = new Float64Array(units.length);
	order.forEach((place, i) => (means[place] = sums[i]! / fish));
	return means;
}

/** The fish of all units before one, met by a fish of it; and what its fish are to each of those, added to theirs. */
function meetRow(
	row: Float64Array,
	numbers: Int32Array,
	counts: Float64Array,
	sums: Float64Array,
	end: number
): number {
	const own = counts[end]!;
	let sum = 0;
	for (let j = 0; j < end; j++) {
		const kinship = row[numbers[j]!]!;
		sum += counts[j]! * kinship;
		sums[j]! += own * kinship;
	}
	return sum;
}

/** Mean inbreeding of the fish is 2 s - 1: twice this figure less 1. */
export function meanSelf(units: readonly Counted[]): Weighing {
	const fish = units.reduce((sum, one) => sum + one.fish, 0);
	return { pairs: [], self: units.map((one) => [one.unit, one.fish / fish]), within: [] };
}
