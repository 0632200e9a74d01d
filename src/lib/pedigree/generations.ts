import type { GroupEvent, ParentSide, UnitId } from '#genetics/groups/event.ts';

/**
 * Generations: how many generations are these fish away from those of no recorded parents?
 *
 * Founders are 0; of young it is 1 more than the mean of their parents' generations, each side by its weights, an
 * outside parent counting as 0; fish put together have the mean by number.
 * Source: the usual rule for overlapping generations, 1 + mean of the parents (common practice, no source).
 * Cost: O(events + candidates).
 *
 * @param events as for `groupKinship`
 * @returns for every unit, 0 or more, not always whole
 * @example
 * generations([{ kind: 'founders', unit: 'wild', count: 4 }]).get('wild') // => 0
 */
export function generations(events: readonly GroupEvent[]): Map<UnitId, number> {
	const of = new Map<UnitId, number>();
	const count = new Map<UnitId, number>();
	const known = (unit: UnitId) => of.get(unit) ?? 0;
	const begin = (unit: UnitId, fish: number, generation: number) => {
		of.set(unit, generation);
		count.set(unit, fish);
	};
	const mean = (side: ParentSide) =>
		side.from.reduce((sum, { unit, weight }) => sum + weight * (unit === null ? 0 : known(unit)), 0);
	for (const event of events) {
		if (event.kind === 'founders') begin(event.unit, event.count, 0);
		else if (event.kind === 'count') count.set(event.unit, event.count);
		else if (event.kind === 'split') {
			begin(event.unit, event.count, known(event.from));
			count.set(event.from, Math.max(0, (count.get(event.from) ?? 0) - event.count));
		} else if (event.kind === 'merge') {
			const fish = event.of.reduce((sum, unit) => sum + (count.get(unit) ?? 0), 0);
			const total = event.of.reduce((sum, unit) => sum + (count.get(unit) ?? 0) * known(unit), 0);
			begin(event.unit, fish, total / Math.max(1, fish));
		} else if (event.kind === 'spawn') {
			const [father, mother] = [mean(event.fathers), mean(event.mothers)];
			if (event.fathers.name !== undefined) begin(event.fathers.name, 1, father);
			if (event.mothers.name !== undefined) begin(event.mothers.name, 1, mother);
			for (const young of event.young) begin(young.unit, young.count, 1 + (father + mother) / 2);
		}
	}
	return of;
}
