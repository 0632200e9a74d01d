import { kinshipTimes } from '../individuals/kinshipTimes.ts';
import type { Pedigree } from '../individuals/pedigree.ts';

/**
 * Mean kinships: how related is each living fish to all living fish, and they to each other?
 *
 * mk_i = mean over all living j, i itself among them, of the kinship of i and j; their mean is MK, and 1 - MK is the
 * gene diversity. Fish with a low mean kinship carry what few others carry. Exact.
 * Source: Lacy (1995), Zoo Biology 14:565; Ballou & Lacy (1995) in Population Management for Survival and Recovery
 * (from memory); Colleau (2002), Genetics Selection Evolution 34:409, for the one pass (from memory).
 * Cost: O(n) time and memory for n fish of the pedigree.
 *
 * @param pedigree parents before young, n fish
 * @param F from `inbreeding` of the same pedigree
 * @param living places in the pedigree, each once
 * @returns `mean`: MK; `of`: mk in the order of `living`; all from 0 to 1
 * @throws RangeError when nobody lives, or a place stands twice or is none of the pedigree's
 * @example
 * const brood = orderedPedigree([['m'], ['f'], ['x', 'm', 'f']].map(([id, mother = null, father = null]) => ({ id, mother, father })));
 * meanKinships(brood, inbreeding(brood), [0, 2]) // => { mean: 0.375, of: new Float64Array([0.375, 0.375]) }
 */
export function meanKinships(
	pedigree: Pedigree,
	F: Float64Array,
	living: readonly number[] | Int32Array
): { readonly mean: number; readonly of: Float64Array } {
	const n = pedigree.ids.length;
	if (living.length === 0) throw new RangeError('meanKinships requires at least one living fish, got none');
	const weights = new Float64Array(n);
	for (const place of living) {
		if (weights[place] !== 0)
			throw new RangeError(`meanKinships requires each place from 0 to ${n - 1} once, got ${place}`);
		weights[place] = 1 / living.length;
	}
	const all = kinshipTimes(pedigree, F, weights);
	const of = Float64Array.from(living, (place) => all[place]!);
	return { mean: of.reduce((sum, mk) => sum + mk, 0) / of.length, of };
}
