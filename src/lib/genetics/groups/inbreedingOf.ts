import type { UnitId } from './event.ts';
import { positions, type GroupKinship } from './table.ts';

/**
 * Mean inbreeding of fish: how often are the two genes of one fish copies of one ancestral gene?
 *
 * F = 2 s - 1 for each unit, averaged over the fish of all units asked about.
 * Source: Wright (1922), American Naturalist 56:330; Malécot (1948) for F as a chance (from memory).
 * Cost: O(units asked).
 *
 * @param table from `groupKinship`
 * @param units one or more, each once
 * @returns 0 to 1
 * @throws RangeError when a unit is not known or none is given
 * @example
 * inbreedingOf(groupKinship([{ kind: 'founders', unit: 'wild', count: 8 }]), ['wild']) // => 0
 */
export function inbreedingOf(table: GroupKinship, units: readonly UnitId[]): number {
	const asked = positions(table, units, 'inbreedingOf');
	const fish = asked.reduce((sum, unit) => sum + table.count[unit]!, 0);
	return asked.reduce((sum, unit) => sum + (table.count[unit]! * (2 * table.self[unit]! - 1)) / fish, 0);
}
