import { depthOrder } from './depthOrder.ts';
import { requireParentsFirst, type Pedigree } from './pedigree.ts';

/**
 * Inbreeding by ancestors: how often are the two genes of each fish copies of one gene, found one brood at a time?
 *
 * Goes up from the two parents, youngest ancestor first: each ancestor a gets the share L_a of the genes that comes
 * through it, and F = sum of L_a² D_a - 1 + D, where D = 1/2 - (F_mother + F_father) / 4 is what chance adds to
 * a fish (F = -1 stands for a parent that is not known). Young of the same two parents share their F. Exact.
 * Source: Meuwissen & Luo (1992), Genetics Selection Evolution 24:305. Differs from it in: the ancestors wait in one
 * list for each depth instead of one sorted list, and pairs of parents are remembered.
 * Cost: O(pairs of parents times their ancestors) time, O(n) memory. Best where fish have few ancestors; `inbreeding`
 * chooses.
 *
 * @param pedigree parents before young, n fish
 * @returns n values from 0 to 1, in the order of the pedigree
 * @throws RangeError when a parent does not come before its young
 * @example
 * const line = [['0', null], ['1', '0'], ['2', '1']].map(([id, parent]) => ({ id, mother: parent, father: parent }));
 * inbreedingByAncestors(orderedPedigree(line)) // => new Float64Array([0, 0.5, 0.75])
 */
export function inbreedingByAncestors(pedigree: Pedigree): Float64Array {
	requireParentsFirst(pedigree, 'inbreedingByAncestors');
	const n = pedigree.ids.length;
	const { order, parents, depth } = depthOrder(pedigree);
	const F = new Float64Array(n);
	const D = new Float64Array(n);
	const share = new Float64Array(n);
	/** The fish that wait at each depth, as linked lists. */
	const first = new Int32Array(n + 1).fill(-1);
	const next = new Int32Array(n);
	const earlier = new PairMemory(n);
	for (let i = 0; i < n; i++) {
		const m = parents[2 * i]!;
		const f = parents[2 * i + 1]!;
		D[i] = 0.5 - ((m < 0 ? -1 : F[m]!) + (f < 0 ? -1 : F[f]!)) / 4;
		if (m < 0 || f < 0) continue;
		const sib = earlier.findOrKeep(m, f, i);
		if (sib >= 0) {
			F[i] = F[sib]!;
			continue;
		}
		let sum = D[i]! - 1;
		const give = (a: number, part: number) => {
			if (share[a] === 0) {
				next[a] = first[depth[a]!]!;
				first[depth[a]!] = a;
			}
			share[a]! += part;
		};
		give(m, 0.5);
		give(f, 0.5);
		for (let level = Math.max(depth[m]!, depth[f]!); level >= 0; level--) {
			for (let a = first[level]!; a >= 0; a = next[a]!) {
				const L = share[a]!;
				share[a] = 0;
				sum += L * L * D[a]!;
				const am = parents[2 * a]!;
				const af = parents[2 * a + 1]!;
				if (am >= 0) give(am, L / 2);
				if (af >= 0) give(af, L / 2);
			}
			first[level] = -1;
		}
		F[i] = sum;
	}
	const result = new Float64Array(n);
	for (let k = 0; k < n; k++) result[order[k]!] = F[k]!;
	return result;
}

/** Remembers the first young of each pair of parents, in an open hash table of at most half its places. */
class PairMemory {
	readonly #places: Int32Array;
	readonly #older: Int32Array;
	readonly #younger: Int32Array;

	constructor(n: number) {
		this.#places = new Int32Array(2 << Math.ceil(Math.log2(n + 1))).fill(-1);
		this.#older = new Int32Array(n);
		this.#younger = new Int32Array(n);
	}

	/** The young kept for this pair, or -1 when there was none and this one is kept. */
	findOrKeep(a: number, b: number, young: number): number {
		const older = Math.min(a, b);
		const younger = Math.max(a, b);
		const mask = this.#places.length - 1;
		// Two odd multipliers spread pairs of small numbers over the table.
		let at = Math.imul(older, 0x9e3779b1) ^ Math.imul(younger, 0x85ebca6b);
		for (at ^= at >>> 15; ; at++) {
			const kept = this.#places[at & mask]!;
			if (kept < 0) break;
			if (this.#older[kept] === older && this.#younger[kept] === younger) return kept;
		}
		this.#places[at & mask] = young;
		this.#older[young] = older;
		this.#younger[young] = younger;
		return -1;
	}
}
