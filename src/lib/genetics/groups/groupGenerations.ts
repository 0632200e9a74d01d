import type { GroupEvent, ParentSide, UnitId } from './event.ts';

/**
 * Group generations: how many generations after the founders are the fish of each unit, on average?
 *
 * Founders are 0, young one more than the mean of their parents, fish put together the mean over the fish.
 * Source: own; for single fish with all parents known it is the number of equivalent complete generations
 * (Maignel, Boichard & Verrier 1996, from memory).
 * Cost: O(events + candidates).
 *
 * @param events as for `groupKinship`, and such that they fit
 * @returns generations, 0 or more, need not be whole; a parent from outside the record is 0
 * @example
 * groupGenerations([{ kind: 'founders', unit: 'wild', count: 4 }]).get('wild') // => 0
 */
export function groupGenerations(events: readonly GroupEvent[]): ReadonlyMap<UnitId, number> {
	const generation = new Map<UnitId, number>();
	const count = new Map<UnitId, number>();
	const begin = (unit: UnitId, fish: number, generations: number) => {
		count.set(unit, fish);
		generation.set(unit, generations);
	};
	const ofSide = (side: ParentSide) => {
		const total = side.from.reduce((sum, { weight }) => sum + weight, 0);
		return side.from.reduce(
			(sum, { unit, weight }) => sum + (weight / total) * (unit === null ? 0 : generation.get(unit)!),
			0
		);
	};
	const fishOf = (units: readonly UnitId[]) => units.reduce((sum, unit) => sum + count.get(unit)!, 0);
	const mean = (units: readonly UnitId[]) =>
		units.reduce((sum, unit) => sum + (count.get(unit)! / fishOf(units)) * generation.get(unit)!, 0);
	for (const event of events) {
		if (event.kind === 'founders') begin(event.unit, event.count, 0);
		else if (event.kind === 'spawn') {
			const [father, mother] = [ofSide(event.fathers), ofSide(event.mothers)];
			if (event.fathers.name !== undefined) begin(event.fathers.name, 1, father);
			if (event.mothers.name !== undefined) begin(event.mothers.name, 1, mother);
			for (const young of event.young) begin(young.unit, young.count, 1 + (father + mother) / 2);
		} else if (event.kind === 'split') {
			begin(event.unit, event.count, generation.get(event.from)!);
			const stayed = count.get(event.from)! - event.count;
			if (stayed > 0) count.set(event.from, stayed);
		} else if (event.kind === 'oneOf') {
			const total = event.from.reduce((sum, { weight }) => sum + weight, 0);
			event.units.forEach(({ unit, count: came }, k) => {
				const sum = event.from.reduce((all, from) => all + from.weight * generation.get(from.units[k]!)!, 0);
				begin(unit, came, sum / total);
			});
		} else if (event.kind === 'merge') begin(event.unit, fishOf(event.of), mean(event.of));
		else if (event.kind === 'generations') {
			const now = event.generations + (mean(event.fathers) + mean(event.mothers)) / 2;
			for (const young of event.young) begin(young.unit, young.count, now);
		} else if (event.count > 0) count.set(event.unit, event.count);
	}
	return generation;
}
