import type { Pedigree } from './pedigree.ts';

/** Fish renumbered by depth: 0 without parents, else one more than the deeper parent; stable within a depth. */
export interface DepthOrder {
	/** Places of the pedigree in the new order. */
	readonly order: Int32Array;
	/** New numbers of mother and father of each fish in the new order; -1 = not known. */
	readonly parents: Int32Array;
	/** Depth of each fish in the new order: never less than that of the one before. */
	readonly depth: Int32Array;
}

/**
 * Depth order: the same fish numbered so that every fish comes after all that are less deep.
 *
 * Source: Kahn (1962), Communications of the ACM 5:558 (from memory).
 * Cost: O(n) time and memory.
 *
 * @param pedigree parents before young, n fish
 * @returns the order, and the parents and depths in it
 * @example
 * depthOrder(orderedPedigree([['a'], ['b', 'a'], ['c']].map(([id, mother = null]) => ({ id, mother, father: null })))).order // => new Int32Array([0, 2, 1])
 */
export function depthOrder({ mother, father }: Pedigree): DepthOrder {
	const n = mother.length;
	const depthGiven = new Int32Array(n);
	const begins = new Int32Array(n + 2);
	for (let i = 0; i < n; i++) {
		const m = mother[i]!;
		const f = father[i]!;
		const above = Math.max(m < 0 ? -1 : depthGiven[m]!, f < 0 ? -1 : depthGiven[f]!);
		depthGiven[i] = above + 1;
		begins[above + 2]!++;
	}
	for (let d = 1; d <= n; d++) begins[d]! += begins[d - 1]!;
	const order = new Int32Array(n);
	const to = new Int32Array(n);
	const depth = new Int32Array(n);
	for (let i = 0; i < n; i++) {
		const k = begins[depthGiven[i]!]!++;
		order[k] = i;
		to[i] = k;
		depth[k] = depthGiven[i]!;
	}
	const parents = new Int32Array(2 * n);
	for (let k = 0; k < n; k++) {
		const m = mother[order[k]!]!;
		const f = father[order[k]!]!;
		parents[2 * k] = m < 0 ? -1 : to[m]!;
		parents[2 * k + 1] = f < 0 ? -1 : to[f]!;
	}
	return { order, parents, depth };
}
