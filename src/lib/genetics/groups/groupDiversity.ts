import type { UnitId } from './event.ts';
import { kinshipWithSelf } from './kinshipWithSelf.ts';
import { drawTwo, positions, type GroupKinship } from './table.ts';

export interface GroupDiversity {
	/** Mean kinship of two fish drawn with replacement. */
	readonly meanKinship: number;
	/** 1 - mean kinship: the share of the founders' variety that is still there. */
	readonly geneDiversity: number;
	/** 1 / (2 mean kinship): so many unrelated fish would hold as much. */
	readonly founderGenomeEquivalents: number;
	/** Mean kinship of a fish of each unit with all of them, itself included; the lowest are the most precious. */
	readonly meanKinshipOf: ReadonlyMap<UnitId, number>;
}

/**
 * Group diversity: how much of the founders' variety do these fish still hold, and which of them hold most?
 *
 * Groups count by their fish. Mean kinship of a unit is sum n_b K(a,b) / N over all units b.
 * Source: Lacy (1995), Zoo Biology 14:565; Ballou & Lacy (1995) in Population Management for Survival and Recovery
 * (from memory); Caballero & Toro (2000), Genetical Research 75:331 for 1 / (2 MK). It is not the definition of
 * Lacy (1989), which counts founder alleles that are still there.
 * Cost: O(units²).
 *
 * @param table from `groupKinship`
 * @param units one or more that hold fish, each once
 * @returns figures from 0 to 1, and equivalents of 0.5 or more
 * @throws RangeError when a unit is not known or asked twice, or none is given
 * @example
 * groupDiversity(groupKinship([{ kind: 'founders', unit: 'wild', count: 4 }]), ['wild']).founderGenomeEquivalents // => 4
 */
export function groupDiversity(table: GroupKinship, units: readonly UnitId[]): GroupDiversity {
	const asked = positions(table, units, 'groupDiversity');
	const fish = asked.reduce((sum, unit) => sum + table.count[unit]!, 0);
	const meanKinship = kinshipWithSelf(table, units);
	const of = (a: number) =>
		asked.reduce((sum, b) => sum + (table.count[b]! * drawTwo(table, a, b)) / fish, 0);
	return {
		meanKinship,
		geneDiversity: 1 - meanKinship,
		founderGenomeEquivalents: 1 / (2 * meanKinship),
		meanKinshipOf: new Map(asked.map((unit) => [table.units[unit]!, of(unit)]))
	};
}
