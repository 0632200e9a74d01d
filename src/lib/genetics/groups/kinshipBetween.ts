import type { UnitId } from './event.ts';
import { drawTwo, positions, type GroupKinship } from './table.ts';

/**
 * Kinship between: how related is a fish of these units to a fish of those? It is the inbreeding of their young.
 *
 * Mean of theta over pairs of units, weighted by fish.
 * Source: Wright (1922), American Naturalist 56:330; Cockerham (1967), Genetics 56:89.
 * Cost: O(units on one side times units on the other).
 *
 * @param table from `groupKinship`
 * @param these one or more units, each once
 * @param those one or more units, each once, none of them among `these`
 * @returns 0 to 1
 * @throws RangeError when a unit is not known, or stands on both sides (ask `kinshipWithin` instead)
 * @example
 * const wild = groupKinship([{ kind: 'founders', unit: 'a', count: 2 }, { kind: 'founders', unit: 'b', count: 2 }]);
 * kinshipBetween(wild, ['a'], ['b']) // => 0
 */
export function kinshipBetween(
	table: GroupKinship,
	these: readonly UnitId[],
	those: readonly UnitId[]
): number {
	const ours = positions(table, these, 'kinshipBetween');
	const theirs = positions(table, those, 'kinshipBetween');
	const shared = these.find((unit) => those.includes(unit));
	if (shared !== undefined)
		throw new RangeError(
			`kinshipBetween requires units on one side only, got ${JSON.stringify(shared)} on both`
		);
	let sum = 0;
	let pairs = 0;
	for (const a of ours)
		for (const b of theirs) {
			const weight = table.count[a]! * table.count[b]!;
			sum += weight * drawTwo(table, a, b);
			pairs += weight;
		}
	return sum / pairs;
}
