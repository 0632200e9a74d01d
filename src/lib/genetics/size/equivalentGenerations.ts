import { requireParentsFirst, type Pedigree } from '../individuals/pedigree.ts';

/**
 * Equivalent generations: how many complete generations of ancestors are known of each fish?
 *
 * Each known ancestor n generations back adds (1/2)^n: g = sum over the known parents of (1 + g_parent) / 2. Exact.
 * Source: Maignel, Boichard & Verrier (1996), Interbull Bulletin 14:49 (from memory); Gutiérrez et al. (2009), Genetics
 * Selection Evolution 41 (from memory).
 * Cost: O(n) time and memory.
 *
 * @param pedigree parents before young, n fish
 * @returns n values of 0 or more
 * @throws RangeError when a parent does not come before its young
 * @example
 * const brood = orderedPedigree([['m'], ['f'], ['x', 'm', 'f'], ['y', 'x']].map(([id, mother = null, father = null]) => ({ id, mother, father })));
 * equivalentGenerations(brood) // => new Float64Array([0, 0, 1, 1])
 */
export function equivalentGenerations(pedigree: Pedigree): Float64Array {
	requireParentsFirst(pedigree, 'equivalentGenerations');
	const generations = new Float64Array(pedigree.ids.length);
	for (let i = 0; i < generations.length; i++)
		for (const parent of [pedigree.mother[i]!, pedigree.father[i]!])
			if (parent >= 0) generations[i]! += (1 + generations[parent]!) / 2;
	return generations;
}
