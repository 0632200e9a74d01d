import { depthOrder } from './depthOrder.ts';
import { requireParentsFirst, type Pedigree } from './pedigree.ts';

/** So many parents are looked at in one pass: as many numbers as fill a line of the processor's memory. */
const together = 8;

/**
 * Inbreeding by sires: how often are the two genes of each fish copies of one gene, found one parent at a time?
 *
 * F of young is the kinship of their parents. For each fish that is a father (or mother, whichever are fewer) its
 * kinship with all its mates is found at once, as in `kinshipTimes`: young to old and back. Only what chance adds to
 * its ancestors, D = 1/2 - (F_mother + F_father) / 4, must be known for that, so that each has one pass for all its
 * mates, and eight go through the pedigree together where none waits for another. Exact.
 * Source: Sargolzaei, Iwaisaki & Colleau (2005), J. Anim. Breed. Genet. 122:325 (from memory); Colleau (2002),
 * Genetics Selection Evolution 34:409 (from memory). Differs from them in: one pass for all depths, eight at once.
 * Cost: O(parents of one sex times parents of both) time, O(parents) memory. Best for a large population of which
 * most fish are ancestors of many; `inbreeding` chooses.
 *
 * @param pedigree parents before young, n fish
 * @returns n values from 0 to 1, in the order of the pedigree
 * @throws RangeError when a parent does not come before its young
 * @example
 * const line = [['0', null], ['1', '0'], ['2', '1']].map(([id, parent]) => ({ id, mother: parent, father: parent }));
 * inbreedingBySires(orderedPedigree(line)) // => new Float64Array([0, 0.5, 0.75])
 */
export function inbreedingBySires(pedigree: Pedigree): Float64Array {
	requireParentsFirst(pedigree, 'inbreedingBySires');
	const n = pedigree.ids.length;
	const { order, parents } = depthOrder(pedigree);
	const side = fewerSide(parents, n);
	const { node, size } = parentNodes(parents, n);
	/** Places of the parents of each node in `kin`; node 0 stands for all parents that are not known. */
	const upper = new Int32Array(2 * size);
	const chance = new Float64Array(size);
	const F = new Float64Array(n);
	const { sires, needs, lastMate, firstYoung, nextYoung } = turns(parents, n, side, node);
	const fishOf = new Int32Array(size);
	for (let i = 0; i < n; i++) {
		if (node[i]! === 0) continue;
		fishOf[node[i]!] = i;
		for (const k of [0, 1]) {
			const parent = parents[2 * i + k]!;
			upper[2 * node[i]! + k] = parent < 0 ? 0 : together * node[parent]!;
		}
	}
	/** Kinship of the eight with each node, and on the way up the genes that come through it. */
	const kin = new Float64Array(together * size);
	let known = 1;
	for (let begin = 0; begin < sires.length;) {
		let end = begin + 1;
		while (end < sires.length && end - begin < together && needs[end]! < begin) end++;
		let top = 0;
		for (let k = begin; k < end; k++) top = Math.max(top, node[sires[k]!]!, lastMate[k]!);
		kin.fill(0, 0, together * (top + 1));
		const youngest = node[sires[end - 1]!]!;
		for (; known <= youngest; known++) {
			const i = fishOf[known]!;
			const m = parents[2 * i]!;
			const f = parents[2 * i + 1]!;
			chance[known] = (0.5 - ((m < 0 ? -1 : F[m]!) + (f < 0 ? -1 : F[f]!)) / 4) / 2;
		}
		for (let k = begin; k < end; k++) kin[together * node[sires[k]!]! + k - begin] = 1;
		goUp(kin, upper, youngest);
		kin.fill(0, 0, together);
		goDown(kin, upper, chance, top);
		for (let k = begin; k < end; k++)
			for (let young = firstYoung[k]!; young >= 0; young = nextYoung[young]!)
				F[young] = kin[together * node[parents[2 * young + 1 - side]!]! + k - begin]!;
		begin = end;
	}
	const result = new Float64Array(n);
	for (let k = 0; k < n; k++) result[order[k]!] = F[k]!;
	return result;
}

/** Young to old: each node gives half of its share to each parent. The eight are written out: a loop is slower. */
function goUp(kin: Float64Array, upper: Int32Array, from: number): void {
	for (let a = from; a > 0; a--) {
		const at = together * a;
		const m = upper[2 * a]!;
		const f = upper[2 * a + 1]!;
		give(kin, at, m, f);
		give(kin, at + 1, m + 1, f + 1);
		give(kin, at + 2, m + 2, f + 2);
		give(kin, at + 3, m + 3, f + 3);
		give(kin, at + 4, m + 4, f + 4);
		give(kin, at + 5, m + 5, f + 5);
		give(kin, at + 6, m + 6, f + 6);
		give(kin, at + 7, m + 7, f + 7);
	}
}

function give(kin: Float64Array, at: number, m: number, f: number): void {
	const half = kin[at]! / 2;
	kin[m]! += half;
	kin[f]! += half;
}

/** Old to young: each node has the mean of its parents' kinship, and its own share times what chance adds. */
function goDown(kin: Float64Array, upper: Int32Array, chance: Float64Array, top: number): void {
	for (let a = 1; a <= top; a++) {
		const at = together * a;
		const m = upper[2 * a]!;
		const f = upper[2 * a + 1]!;
		const D = chance[a]!;
		take(kin, at, m, f, D);
		take(kin, at + 1, m + 1, f + 1, D);
		take(kin, at + 2, m + 2, f + 2, D);
		take(kin, at + 3, m + 3, f + 3, D);
		take(kin, at + 4, m + 4, f + 4, D);
		take(kin, at + 5, m + 5, f + 5, D);
		take(kin, at + 6, m + 6, f + 6, D);
		take(kin, at + 7, m + 7, f + 7, D);
	}
}

function take(kin: Float64Array, at: number, m: number, f: number, D: number): void {
	kin[at] = (kin[m]! + kin[f]!) / 2 + D * kin[at]!;
}

/** 0 when there are fewer mothers than fathers, else 1. */
function fewerSide(parents: Int32Array, n: number): 0 | 1 {
	const seen = [new Uint8Array(n), new Uint8Array(n)] as const;
	const count = [0, 0];
	for (let i = 0; i < n; i++) {
		if (parents[2 * i]! < 0 || parents[2 * i + 1]! < 0) continue;
		for (const side of [0, 1] as const) {
			const parent = parents[2 * i + side]!;
			if (seen[side][parent]) continue;
			seen[side][parent] = 1;
			count[side]!++;
		}
	}
	return count[0]! < count[1]! ? 0 : 1;
}

/** Numbers from 1 of the fish that have young, in order; 0 for others. */
function parentNodes(parents: Int32Array, n: number) {
	const isParent = new Uint8Array(n);
	for (const parent of parents) if (parent >= 0) isParent[parent] = 1;
	const node = new Int32Array(n);
	let size = 1;
	for (let i = 0; i < n; i++) if (isParent[i]) node[i] = size++;
	return { node, size };
}

/** In which turn each parent of the side comes, and the last turn that must be over: D of all up to it is known then. */
function turns(parents: Int32Array, n: number, side: 0 | 1, node: Int32Array) {
	const rank = new Int32Array(n).fill(-1);
	for (let i = 0; i < n; i++)
		if (parents[2 * i]! >= 0 && parents[2 * i + 1]! >= 0) rank[parents[2 * i + side]!] = 0;
	const all: number[] = [];
	for (let i = 0; i < n; i++) if (rank[i] === 0) rank[i] = all.push(i) - 1;
	/** The turn of its parent that tells the F of a fish; -1 = it is 0 without. */
	const tells = (i: number) =>
		i >= 0 && parents[2 * i]! >= 0 && parents[2 * i + 1]! >= 0 ? rank[parents[2 * i + side]!]! : -1;
	const needs = new Int32Array(all.length);
	for (let i = 0, latest = -1; i < n; i++) {
		if (node[i]! > 0) latest = Math.max(latest, tells(parents[2 * i]!), tells(parents[2 * i + 1]!));
		if (rank[i]! >= 0) needs[rank[i]!] = latest;
	}
	const lastMate = new Int32Array(all.length);
	const firstYoung = new Int32Array(all.length).fill(-1);
	const nextYoung = new Int32Array(n).fill(-1);
	for (let i = 0; i < n; i++) {
		const turn = tells(i);
		if (turn < 0) continue;
		nextYoung[i] = firstYoung[turn]!;
		firstYoung[turn] = i;
		lastMate[turn] = Math.max(lastMate[turn]!, node[parents[2 * i + 1 - side]!]!);
	}
	return { sires: all, needs, lastMate, firstYoung, nextYoung };
}
