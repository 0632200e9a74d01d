import { requireParentsFirst, type Pedigree } from '../individuals/pedigree.ts';

export interface FounderContributions {
	/** Places of the fish of which neither parent is known, in order. */
	readonly founders: Int32Array;
	/** Share of the living fish's genes that comes from each of them, in the same order. */
	readonly shares: Float64Array;
	/** The same for each single parent that is not known, where the other one is; a founder of its own. */
	readonly unknownParents: Float64Array;
}

/**
 * Founder contributions: which share of the living fish's genes comes from each founder?
 *
 * Young to old, each fish passes half of its share to each parent; what founders hold at the end is theirs. Where one
 * parent is known and the other not, the other is a founder of its own. All shares together sum to 1. Exact.
 * Source: Lacy (1989), Zoo Biology 8:111; the pass: Colleau (2002), Genetics Selection Evolution 34:409 (from memory).
 * Cost: O(n) time and memory.
 *
 * @param pedigree parents before young, n fish
 * @param living places in the pedigree, each once
 * @returns shares from 0 to 1
 * @throws RangeError when nobody lives, a place stands twice or is none of the pedigree's, or young come too early
 * @example
 * const brood = orderedPedigree([['m'], ['f'], ['x', 'm', 'f'], ['y', 'x']].map(([id, mother = null, father = null]) => ({ id, mother, father })));
 * founderContributions(brood, [3]).shares // => new Float64Array([0.25, 0.25])
 * founderContributions(brood, [3]).unknownParents // => new Float64Array([0.5])
 */
export function founderContributions(
	pedigree: Pedigree,
	living: readonly number[] | Int32Array
): FounderContributions {
	requireParentsFirst(pedigree, 'founderContributions');
	const { mother, father } = pedigree;
	const n = mother.length;
	if (living.length === 0)
		throw new RangeError('founderContributions requires at least one living fish, got none');
	const share = new Float64Array(n);
	for (const place of living) {
		if (share[place] !== 0)
			throw new RangeError(`founderContributions requires each place from 0 to ${n - 1} once, got ${place}`);
		share[place] = 1 / living.length;
	}
	const founders: number[] = [];
	const unknownParents: number[] = [];
	for (let i = n - 1; i >= 0; i--) {
		const m = mother[i]!;
		const f = father[i]!;
		const half = share[i]! / 2;
		if (m < 0 && f < 0) founders.push(i);
		else if (m < 0 || f < 0) unknownParents.push(half);
		if (m >= 0) share[m]! += half;
		if (f >= 0) share[f]! += half;
	}
	founders.reverse();
	return {
		founders: Int32Array.from(founders),
		shares: Float64Array.from(founders, (i) => share[i]!),
		unknownParents: Float64Array.from(unknownParents.reverse())
	};
}
