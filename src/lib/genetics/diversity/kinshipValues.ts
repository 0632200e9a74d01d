import { kinshipTimes } from '../individuals/kinshipTimes.ts';
import type { Pedigree } from '../individuals/pedigree.ts';

/**
 * Kinship values: how related is each living fish to those that will yet have young?
 *
 * Mean kinship with weights: KV_i = sum of V_j kinship(i, j) / sum of V_j, V_j the number of young that j can still be
 * expected to have; old fish weigh nothing. With equal weights it is the mean kinship. Exact for the weights given.
 * Source: Ballou & Lacy (1995) in Population Management for Survival and Recovery (from memory).
 * Cost: O(n) time and memory for n fish of the pedigree.
 *
 * @param pedigree parents before young, n fish
 * @param F from `inbreeding` of the same pedigree
 * @param living places in the pedigree, each once
 * @param expectedYoung V in the order of `living`, any unit, 0 or more
 * @returns values from 0 to 1 in the order of `living`
 * @throws RangeError when the lengths differ, a weight is negative, or all are 0
 * @example
 * const brood = orderedPedigree([['m'], ['f'], ['x', 'm', 'f']].map(([id, mother = null, father = null]) => ({ id, mother, father })));
 * kinshipValues(brood, inbreeding(brood), [0, 2], [0, 3]) // => new Float64Array([0.25, 0.5])
 */
export function kinshipValues(
	pedigree: Pedigree,
	F: Float64Array,
	living: readonly number[] | Int32Array,
	expectedYoung: ArrayLike<number>
): Float64Array {
	const V = Float64Array.from(expectedYoung);
	const total = V.reduce((sum, weight) => sum + weight, 0);
	if (V.length !== living.length || !(total > 0) || V.some((weight) => weight < 0))
		throw new RangeError(
			`kinshipValues requires ${living.length} weights of 0 or more, got ${V.length} with sum ${total}`
		);
	const weights = new Float64Array(pedigree.ids.length);
	living.forEach((place, k) => (weights[place] = V[k]! / total));
	const all = kinshipTimes(pedigree, F, weights);
	return Float64Array.from(living, (place) => all[place]!);
}
