import { kinshipTimes } from './kinshipTimes.ts';
import type { Pedigree } from './pedigree.ts';

/**
 * Kinship row: how related is one fish to every other?
 *
 * `kinshipTimes` with weight 1 on this fish: one row of the table that `kinship` would fill. Exact.
 * Source: Colleau (2002), Genetics Selection Evolution 34:409 (from memory).
 * Cost: O(n) time and memory.
 *
 * @param pedigree parents before young, n fish
 * @param F from `inbreeding` of the same pedigree
 * @param fish its place in the pedigree
 * @returns n values from 0 to 1; with itself (1 + F) / 2
 * @throws RangeError when there is no such place or `F` has another length
 * @example
 * const brood = orderedPedigree([['m'], ['f'], ['x', 'm', 'f']].map(([id, mother = null, father = null]) => ({ id, mother, father })));
 * kinshipRow(brood, inbreeding(brood), 0) // => new Float64Array([0.5, 0, 0.25])
 */
export function kinshipRow(pedigree: Pedigree, F: Float64Array, fish: number): Float64Array {
	const n = pedigree.ids.length;
	if (!(Number.isInteger(fish) && fish >= 0 && fish < n))
		throw new RangeError(`kinshipRow requires a place from 0 to ${n - 1}, got ${fish}`);
	const weights = new Float64Array(n);
	weights[fish] = 1;
	return kinshipTimes(pedigree, F, weights);
}
