import { requireParentsFirst, type Pedigree } from './pedigree.ts';

/** An order of the fish that are parents, and when each is needed last. */
export interface ForgettingOrder {
	/** Places of all fish that have young in the pedigree, parents first. */
	readonly order: Int32Array;
	/** For each place in `order`: the last place in `order` at which this fish is needed. */
	readonly lastNeed: Int32Array;
	/** Most fish remembered at one time. */
	readonly most: number;
	/** Sum over the order of the most fish remembered so far: how many cells of a table would be filled. */
	readonly cells: number;
}

/**
 * Forgetting order: in which order must parents be looked at so that few are remembered at one time?
 *
 * A parent is needed from its own place until its last young that is a parent, and until its last mate. Tried are the
 * order given, the order by depth, and the latest depth at which a fish is still in time for its young; the one that
 * fills fewest cells wins. The least possible is not sought: for records by date the order given is near it.
 * Source: own; depth as in Kahn (1962), Communications of the ACM 5:558 (from memory).
 * Cost: O(n) time and memory.
 *
 * @param pedigree parents before young, n fish
 * @returns the order, with places of the pedigree
 * @throws RangeError when a parent does not come before its young
 * @example
 * const line = [['a', null], ['b', 'a'], ['c', 'b'], ['d', 'c']].map(([id, mother]) => ({ id, mother, father: null }));
 * forgettingOrder(orderedPedigree(line)).most // => 2
 */
export function forgettingOrder(pedigree: Pedigree): ForgettingOrder {
	requireParentsFirst(pedigree, 'forgettingOrder');
	const { mother, father } = pedigree;
	const n = mother.length;
	const isParent = new Uint8Array(n);
	for (let i = 0; i < n; i++) {
		if (mother[i]! >= 0) isParent[mother[i]!] = 1;
		if (father[i]! >= 0) isParent[father[i]!] = 1;
	}
	const given: number[] = [];
	const depth = new Int32Array(n);
	for (let i = 0; i < n; i++) {
		const above = (parent: number) => (parent < 0 ? -1 : depth[parent]!);
		depth[i] = 1 + Math.max(above(mother[i]!), above(father[i]!));
		if (isParent[i]) given.push(i);
	}
	const inGivenOrder = withNeeds(pedigree, Int32Array.from(given));
	const byDepth = withNeeds(pedigree, sortedBy(given, depth));
	const byLateDepth = withNeeds(pedigree, sortedBy(given, lateDepth(pedigree, isParent, depth)));
	return [inGivenOrder, byDepth, byLateDepth].reduce((best, one) => (one.cells < best.cells ? one : best));
}

/** The greatest depth that is less than that of all young which are parents; without such young: the depth itself. */
function lateDepth({ mother, father }: Pedigree, isParent: Uint8Array, depth: Int32Array): Int32Array {
	const none = 0x7fffffff;
	const late = new Int32Array(depth.length).fill(none);
	for (let i = depth.length - 1; i >= 0; i--) {
		if (!isParent[i]) continue;
		if (late[i] === none) late[i] = depth[i]!;
		for (const parent of [mother[i]!, father[i]!])
			if (parent >= 0) late[parent] = Math.min(late[parent]!, late[i]! - 1);
	}
	return late;
}

/** Counting sort, stable. */
function sortedBy(fish: readonly number[], key: Int32Array): Int32Array {
	const begins = new Int32Array(key.length + 1);
	for (const i of fish) begins[key[i]! + 1]!++;
	for (let k = 1; k < begins.length; k++) begins[k]! += begins[k - 1]!;
	const sorted = new Int32Array(fish.length);
	for (const i of fish) sorted[begins[key[i]!]!++] = i;
	return sorted;
}

function withNeeds({ mother, father }: Pedigree, order: Int32Array): ForgettingOrder {
	const n = mother.length;
	const rank = new Int32Array(n).fill(-1);
	for (let k = 0; k < order.length; k++) rank[order[k]!] = k;
	const lastNeed = Int32Array.from(order, (_, k) => k);
	const need = (fish: number, at: number) => {
		if (fish >= 0 && lastNeed[rank[fish]!]! < at) lastNeed[rank[fish]!] = at;
	};
	for (let i = 0; i < n; i++) {
		const m = mother[i]!;
		const f = father[i]!;
		const together = Math.max(rank[i]!, m < 0 ? -1 : rank[m]!, f < 0 ? -1 : rank[f]!);
		need(m, m >= 0 && f >= 0 ? together : rank[i]!);
		need(f, m >= 0 && f >= 0 ? together : rank[i]!);
	}
	const forgotten = new Int32Array(order.length);
	for (const at of lastNeed) forgotten[at]!++;
	let remembered = 0;
	let most = 0;
	let cells = 0;
	for (let k = 0; k < order.length; k++) {
		remembered++;
		if (remembered > most) most = remembered;
		cells += most;
		remembered -= forgotten[k]!;
	}
	return { order, lastNeed, most, cells };
}
