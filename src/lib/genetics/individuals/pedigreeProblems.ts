import type { FishRecord } from './pedigree.ts';

export interface PedigreeProblem {
	readonly code:
		| 'fishTwice' // two records or more have one id
		| 'parentUnknown' // a parent is named that has no record: not known is `null`
		| 'ownAncestor'; // these fish are ancestors of themselves and of each other
	readonly ids: readonly string[];
}

/**
 * Problems of a pedigree: can these records be put in an order in which parents come before young?
 *
 * Looks for ids that stand twice, for parents that have no record, and for circles: sets of fish of which each is an
 * ancestor of each. Every circle is a problem of its own; descendants of a circle are not named, and a repeated id is
 * followed to its first record. What can be computed but can hardly be true (a father that is a mother, a parent younger than its young) is told by `unlikelyRecords`.
 * Source: Tarjan (1972), SIAM Journal on Computing 1:146 (circles as strongly connected components; from memory).
 * Cost: O(fish) time and memory; no recursion, so that long lines of descent are no danger.
 *
 * @param fish records in any order
 * @returns all problems: repeated ids, parents without record, circles, each in order of first mention; the ids of a
 *   circle are in the order of the records; empty when all is well
 * @example
 * pedigreeProblems([{ id: 'a', mother: 'a', father: null }]) // => [{ code: 'ownAncestor', ids: ['a'] }]
 */
export function pedigreeProblems(fish: readonly FishRecord[]): PedigreeProblem[] {
	const place = new Map<string, number>();
	const twice = new Set<string>();
	fish.forEach(({ id }, i) => {
		if (place.has(id)) twice.add(id);
		else place.set(id, i);
	});
	const missing = new Set<string>();
	const parents = new Int32Array(2 * fish.length).fill(-1);
	fish.forEach(({ mother, father }, i) => {
		[mother, father].forEach((parent, side) => {
			if (parent === null) return;
			const at = place.get(parent);
			if (at === undefined) missing.add(parent);
			else parents[2 * i + side] = at;
		});
	});
	return [
		...[...twice].map((id): PedigreeProblem => ({ code: 'fishTwice', ids: [id] })),
		...[...missing].map((id): PedigreeProblem => ({ code: 'parentUnknown', ids: [id] })),
		...circles(parents).map((circle): PedigreeProblem => ({
			code: 'ownAncestor',
			ids: circle.map((i) => fish[i]!.id)
		}))
	];
}

/** Sets of fish that are ancestors of each other, each in ascending order, by their first fish. */
function circles(parents: Int32Array): number[][] {
	const n = parents.length / 2;
	const found: number[][] = [];
	/** Order of discovery, from 1; 0 = not seen yet. */
	const order = new Int32Array(n);
	const lowest = new Int32Array(n);
	const open: number[] = [];
	const isOpen = new Uint8Array(n);
	/** The way from the fish begun with to the one looked at, and which parents of each have been looked at. */
	const path: number[] = [];
	const side = new Uint8Array(n);
	let seen = 0;
	const enter = (i: number) => {
		order[i] = lowest[i] = ++seen;
		open.push(i);
		isOpen[i] = 1;
		path.push(i);
	};
	for (let start = 0; start < n; start++) {
		if (order[start]) continue;
		enter(start);
		while (path.length > 0) {
			const i = path.at(-1)!;
			if (side[i]! < 2) {
				const parent = parents[2 * i + side[i]!++]!;
				if (parent < 0) continue;
				if (!order[parent]) enter(parent);
				else if (isOpen[parent]) lowest[i] = Math.min(lowest[i]!, order[parent]!);
				continue;
			}
			path.pop();
			const below = path.at(-1);
			if (below !== undefined) lowest[below] = Math.min(lowest[below]!, lowest[i]!);
			if (lowest[i] !== order[i]) continue;
			const together = open.splice(open.lastIndexOf(i));
			for (const one of together) isOpen[one] = 0;
			if (together.length > 1 || parents[2 * i] === i || parents[2 * i + 1] === i)
				found.push(together.sort((a, b) => a - b));
		}
	}
	return found.sort((a, b) => a[0]! - b[0]!);
}
