import type { UnitId } from './event.ts';
import { drawTwo, positions, type GroupKinship } from './table.ts';

/**
 * Kinship with self: how related are two fish of these units when the same fish may be drawn twice?
 *
 * Mean of K(a,b) over all units asked, weighted by fish; 1 minus this is the gene diversity of the set.
 * Source: Ballou & Lacy (1995) in Population Management for Survival and Recovery (mean kinship; from memory);
 * Caballero & Toro (2000), Genetical Research 75:331.
 * Cost: O(units asked squared).
 *
 * @param table from `groupKinship`
 * @param units one or more, each once, with no fish in common
 * @returns 0 to 1
 * @throws RangeError when a unit is not known or asked twice, or none is given
 * @example
 * kinshipWithSelf(groupKinship([{ kind: 'founders', unit: 'wild', count: 4 }]), ['wild']) // => 0.125
 */
export function kinshipWithSelf(table: GroupKinship, units: readonly UnitId[]): number {
	const asked = positions(table, units, 'kinshipWithSelf');
	const fish = asked.reduce((sum, unit) => sum + table.count[unit]!, 0);
	let sum = 0;
	for (const a of asked)
		for (const b of asked) sum += table.count[a]! * table.count[b]! * drawTwo(table, a, b);
	return sum / (fish * fish);
}
