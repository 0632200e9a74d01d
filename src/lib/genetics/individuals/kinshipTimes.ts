import { requireParentsFirst, type Pedigree } from './pedigree.ts';

/**
 * Kinship times a vector: what is the mean kinship of every fish with a weighted set of fish?
 *
 * K x without the table K, in two passes: young to old, each fish gives half of its weight to each parent; old to
 * young, each fish takes the mean of its parents' results and adds D_i times its gathered weight, with
 * D = 1/2 - (F_mother + F_father) / 4 and F = -1 for a parent that is not known. K = A/2 is kinship. Exact.
 * Source: Colleau (2002), Genetics Selection Evolution 34:409 (from memory); D: Henderson (1976), Biometrics 32:69,
 * Quaas (1976), Biometrics 32:949 (from memory).
 * Cost: O(n) time and memory.
 *
 * @param pedigree parents before young, n fish
 * @param F from `inbreeding` of the same pedigree
 * @param weights n weights, any real numbers; not changed
 * @returns n values: the i-th is the sum over j of kinship(i, j) weights[j]
 * @throws RangeError when the lengths differ or a parent does not come before its young
 * @example
 * const brood = orderedPedigree([['m'], ['f'], ['x', 'm', 'f']].map(([id, mother = null, father = null]) => ({ id, mother, father })));
 * kinshipTimes(brood, inbreeding(brood), Float64Array.of(0, 0, 1)) // => new Float64Array([0.25, 0.25, 0.5])
 */
export function kinshipTimes(pedigree: Pedigree, F: Float64Array, weights: Float64Array): Float64Array {
	const { mother, father } = pedigree;
	const n = mother.length;
	if (F.length !== n || weights.length !== n)
		throw new RangeError(
			`kinshipTimes requires ${n} inbreedings and weights, got ${F.length} and ${weights.length}`
		);
	requireParentsFirst(pedigree, 'kinshipTimes');
	const result = Float64Array.from(weights);
	for (let i = n - 1; i >= 0; i--) {
		const half = result[i]! / 2;
		if (half === 0) continue;
		if (mother[i]! >= 0) result[mother[i]!]! += half;
		if (father[i]! >= 0) result[father[i]!]! += half;
	}
	for (let i = 0; i < n; i++) {
		const m = mother[i]!;
		const f = father[i]!;
		const D = 0.5 - ((m < 0 ? -1 : F[m]!) + (f < 0 ? -1 : F[f]!)) / 4;
		result[i] = (D * result[i]!) / 2 + ((m < 0 ? 0 : result[m]!) + (f < 0 ? 0 : result[f]!)) / 2;
	}
	return result;
}
