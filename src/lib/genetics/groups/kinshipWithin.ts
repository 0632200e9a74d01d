import type { UnitId } from './event.ts';
import { drawDifferent, positions, type GroupKinship } from './table.ts';

/**
 * Kinship within: how related are two different fish of these units taken together?
 *
 * Mean over all pairs of different fish: sum of n(n-1) w within units and n n' theta between them, over N(N-1).
 * Source: Cockerham (1967), Genetics 56:89 (group coancestry).
 * Cost: O(units asked squared).
 *
 * @param table from `groupKinship`
 * @param units one or more, each once, with no fish in common
 * @returns 0 to 1
 * @throws RangeError when a unit is not known, is asked twice, or all together hold fewer than two fish
 * @example
 * kinshipWithin(groupKinship([{ kind: 'founders', unit: 'shop', count: 6, within: 0.25 }]), ['shop']) // => 0.25
 */
export function kinshipWithin(table: GroupKinship, units: readonly UnitId[]): number {
	const asked = positions(table, units, 'kinshipWithin');
	const fish = asked.reduce((sum, unit) => sum + table.count[unit]!, 0);
	if (fish < 2) throw new RangeError(`kinshipWithin requires two different fish, got ${fish}`);
	let sum = 0;
	for (const a of asked)
		for (const b of asked) {
			const others = a === b ? table.count[b]! - 1 : table.count[b]!;
			sum += table.count[a]! * others * drawDifferent(table, a, b);
		}
	return sum / (fish * (fish - 1));
}
