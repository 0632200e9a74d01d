import type { FishRecord, Pedigree } from './pedigree.ts';
import { pedigreeProblems } from './pedigreeProblems.ts';

/**
 * Ordered pedigree: records of single fish in any order, made ready for `kinship` and `inbreeding`.
 *
 * Records that have parents before young already stay as they are; others are ordered by depth, which is 0 without
 * parents and one more than the deeper parent's otherwise, and within one depth as they came.
 * Source: Kahn (1962), Communications of the ACM 5:558 (topological sorting; from memory).
 * Cost: O(fish) time and memory.
 *
 * @param fish records in any order; not changed
 * @returns parents before young
 * @throws RangeError when the records do not fit together; `pedigreeProblems` lists all reasons
 * @example
 * orderedPedigree([{ id: 'fry', mother: 'old', father: null }, { id: 'old', mother: null, father: null }]).ids // => ['old', 'fry']
 */
export function orderedPedigree(fish: readonly FishRecord[]): Pedigree {
	const n = fish.length;
	const place = new Map<string, number>();
	for (let i = 0; i < n; i++) place.set(fish[i]!.id, i);
	const mother = new Int32Array(n);
	const father = new Int32Array(n);
	let fits = place.size === n;
	let inOrder = true;
	for (let i = 0; i < n; i++) {
		const record = fish[i]!;
		const m = record.mother === null ? -1 : place.get(record.mother);
		const f = record.father === null ? -1 : place.get(record.father);
		if (m === undefined || f === undefined) fits = false;
		mother[i] = m ?? -1;
		father[i] = f ?? -1;
		if (mother[i]! >= i || father[i]! >= i) inOrder = false;
	}
	if (fits && inOrder) return { ids: fish.map(({ id }) => id), mother, father };
	const order = fits ? parentsFirst(mother, father) : [];
	if (order.length < n) {
		const [problem] = pedigreeProblems(fish);
		throw new RangeError(
			`orderedPedigree requires records that fit, got ${problem?.code} for ${problem?.ids.join(', ')}`
		);
	}
	const to = new Int32Array(n);
	for (let k = 0; k < n; k++) to[order[k]!] = k;
	const moved = (parents: Int32Array) =>
		Int32Array.from(order, (i) => (parents[i]! < 0 ? -1 : to[parents[i]!]!));
	return { ids: Array.from(order, (i) => fish[i]!.id), mother: moved(mother), father: moved(father) };
}

/** Kahn's queue, which comes out by depth; fish on a circle or below one are left out. */
function parentsFirst(mother: Int32Array, father: Int32Array): Int32Array {
	const n = mother.length;
	const waitsFor = new Uint8Array(n);
	/** The young of each parent as linked lists: the last one, and for each fish and side the one before. */
	const lastYoung = new Int32Array(n).fill(-1);
	const before = new Int32Array(2 * n);
	for (let i = 0; i < n; i++)
		for (const side of [0, 1]) {
			const parent = side ? father[i]! : mother[i]!;
			if (parent < 0) continue;
			waitsFor[i]!++;
			before[2 * i + side] = lastYoung[parent]!;
			lastYoung[parent] = 2 * i + side;
		}
	const queue = new Int32Array(n);
	let end = 0;
	for (let i = 0; i < n; i++) if (!waitsFor[i]) queue[end++] = i;
	// Fish that become ready in one level are put in the order in which they came.
	for (let begin = 0; begin < end;) {
		const levelEnd = end;
		for (; begin < levelEnd; begin++)
			for (let link = lastYoung[queue[begin]!]!; link >= 0; link = before[link]!)
				if (--waitsFor[link >> 1]! === 0) queue[end++] = link >> 1;
		queue.subarray(levelEnd, end).sort();
	}
	return queue.subarray(0, end);
}
