import type { GroupEvent, ParentSide, UnitId } from '../groups/event.ts';
import type { Settled } from './uncertainBroods.ts';

/**
 * Settled broods: what would the events be if we knew these parents?
 *
 * Each settled spawn keeps its way of drawing and its names, with one candidate on each side.
 * Source: none needed, this rewrites what the events say.
 * Cost: O(events); events that are not settled are the same objects.
 *
 * @param events as for `groupKinship`; not changed
 * @param settled place of a spawn in the list, and its parents
 * @returns events for `groupKinship`, as many as before
 * @throws RangeError when a place is not that of a spawn
 * @example
 * settleBroods([{ kind: 'founders', unit: 'a', count: 2 }], new Map()).length // => 1
 */
export function settleBroods(
	events: readonly GroupEvent[],
	settled: ReadonlyMap<number, Settled>
): GroupEvent[] {
	const result = [...events];
	for (const [position, { father, mother }] of settled) {
		const event = result[position];
		if (event?.kind !== 'spawn')
			throw new RangeError(`settleBroods requires the place of a spawn, got ${position}`);
		result[position] = {
			...event,
			fathers: only(event.fathers, father),
			mothers: only(event.mothers, mother)
		};
	}
	return result;
}

function only(side: ParentSide, unit: UnitId | null): ParentSide {
	return { ...side, from: [{ unit, weight: 1 }] };
}
