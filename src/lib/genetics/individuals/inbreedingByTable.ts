import { forgettingOrder, type ForgettingOrder } from './forgettingOrder.ts';
import { requireParentsFirst, type Pedigree } from './pedigree.ts';

/**
 * Inbreeding by table: how often are the two genes of each fish copies of one gene, found with a small kinship table?
 *
 * The tabular method, kept only for fish that are still needed: a fish that will be no parent gets no row, and a row
 * is forgotten after its last young and its last mate. F is the kinship of the parents. Exact.
 * Source: Emik & Terrill (1949), Journal of Heredity 40:51; Cruden (1949), Journal of Heredity 40:248. Differs from
 * them in: rows are forgotten (own).
 * Cost: O(n + parents times fish remembered) time, O(remembered²) memory. Best for many generations of a population
 * that is small beside its history; `inbreeding` chooses.
 *
 * @param pedigree parents before young, n fish
 * @param plan from `forgettingOrder` of the same pedigree, if it is at hand
 * @returns n values from 0 to 1, in the order of the pedigree
 * @throws RangeError when a parent does not come before its young
 * @example
 * const line = [['0', null], ['1', '0'], ['2', '1']].map(([id, parent]) => ({ id, mother: parent, father: parent }));
 * inbreedingByTable(orderedPedigree(line)) // => new Float64Array([0, 0.5, 0.75])
 */
export function inbreedingByTable(
	pedigree: Pedigree,
	plan: ForgettingOrder = forgettingOrder(pedigree)
): Float64Array {
	requireParentsFirst(pedigree, 'inbreedingByTable');
	const { mother, father } = pedigree;
	const n = mother.length;
	const { order, lastNeed, most } = plan;
	const rank = new Int32Array(n).fill(-1);
	for (let k = 0; k < order.length; k++) rank[order[k]!] = k;
	const F = new Float64Array(n);
	const broods = linked(order.length, n, (i) =>
		mother[i]! < 0 || father[i]! < 0 ? -1 : Math.max(rank[mother[i]!]!, rank[father[i]!]!)
	);
	const leaving = linked(order.length, order.length, (k) => lastNeed[k]!);

	const table = new Float64Array(most * most);
	const row = new Int32Array(n);
	const free = new Int32Array(most);
	let freed = 0;
	let used = 0;
	for (let k = 0; k < order.length; k++) {
		const i = order[k]!;
		const own = freed > 0 ? free[--freed]! : used++;
		row[i] = own;
		const m = mother[i]! < 0 ? -1 : row[mother[i]!]!;
		const f = father[i]! < 0 ? -1 : row[father[i]!]!;
		fillRow(table, most, used, own, m, f);
		for (let young = broods.first[k]!; young >= 0; young = broods.next[young]!)
			F[young] = table[row[mother[young]!]! * most + row[father[young]!]!]!;
		for (let gone = leaving.first[k]!; gone >= 0; gone = leaving.next[gone]!)
			free[freed++] = row[order[gone]!]!;
	}
	return F;
}

/** Row and column of a fish whose parents have rows m and f, -1 = not known; rows that are free are filled too. */
function fillRow(table: Float64Array, width: number, used: number, own: number, m: number, f: number): void {
	const at = own * width;
	const parents = m < 0 || f < 0 ? 0 : table[m * width + f]!;
	if (m >= 0 && f >= 0) {
		const atM = m * width;
		const atF = f * width;
		for (let j = 0, column = own; j < used; j++, column += width)
			table[column] = table[at + j] = (table[atM + j]! + table[atF + j]!) / 2;
	} else if (m >= 0 || f >= 0) {
		const atKnown = Math.max(m, f) * width;
		for (let j = 0, column = own; j < used; j++, column += width)
			table[column] = table[at + j] = table[atKnown + j]! / 2;
	} else for (let j = 0, column = own; j < used; j++, column += width) table[column] = table[at + j] = 0;
	table[at + own] = (1 + parents) / 2;
}

/** Lists of things under a number each, -1 = under none, as linked lists. */
function linked(lists: number, things: number, listOf: (thing: number) => number) {
	const first = new Int32Array(lists).fill(-1);
	const next = new Int32Array(things).fill(-1);
	for (let thing = 0; thing < things; thing++) {
		const list = listOf(thing);
		if (list < 0) continue;
		next[thing] = first[list]!;
		first[list] = thing;
	}
	return { first, next };
}
