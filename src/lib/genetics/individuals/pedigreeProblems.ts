import type { FishRecord } from './pedigree.ts';

export interface PedigreeProblem {
	readonly code:
		| 'fishTwice' // two records have one id
		| 'parentUnknown' // a parent is named that has no record
		| 'ownAncestor'; // these fish are ancestors of themselves, or young of such fish
	readonly ids: readonly string[];
}

/**
 * Problems of a pedigree: can these records be put in an order in which parents come before young?
 *
 * Takes away fish whose parents are all placed until none is left; what cannot be taken away hangs on a circle.
 * Source: Kahn (1962), Communications of the ACM 5:558 (topological sorting; from memory).
 * Cost: O(fish).
 *
 * @param fish records in any order
 * @returns all problems, at most one `ownAncestor`; empty when all is well
 * @example
 * pedigreeProblems([{ id: 'a', mother: 'a', father: null }]) // => [{ code: 'ownAncestor', ids: ['a'] }]
 */
export function pedigreeProblems(fish: readonly FishRecord[]): PedigreeProblem[] {
	const problems: PedigreeProblem[] = [];
	const known = new Set<string>();
	for (const { id } of fish) {
		if (known.has(id)) problems.push({ code: 'fishTwice', ids: [id] });
		known.add(id);
	}
	const missing = new Set(fish.flatMap(parentsOf).filter((parent) => !known.has(parent)));
	for (const parent of missing) problems.push({ code: 'parentUnknown', ids: [parent] });
	const placed = placeParentsFirst(fish);
	const circle = [...known].filter((id) => !placed.has(id));
	if (circle.length > 0) problems.push({ code: 'ownAncestor', ids: circle });
	return problems;
}

function parentsOf({ mother, father }: FishRecord): string[] {
	return [mother, father].filter((parent) => parent !== null);
}

/** Ids in an order with parents first, without those that hang on a circle; parents without record are ignored. */
export function placeParentsFirst(fish: readonly FishRecord[]): Set<string> {
	const known = new Set(fish.map(({ id }) => id));
	const young = new Map<string, string[]>();
	const waitsFor = new Map<string, number>();
	for (const record of fish) {
		const parents = parentsOf(record).filter((parent) => known.has(parent));
		waitsFor.set(record.id, parents.length);
		for (const parent of parents) {
			const list = young.get(parent);
			if (list) list.push(record.id);
			else young.set(parent, [record.id]);
		}
	}
	const ready = fish.map(({ id }) => id).filter((id) => waitsFor.get(id) === 0);
	const placed = new Set<string>();
	for (const id of ready) {
		placed.add(id);
		for (const child of young.get(id) ?? []) {
			const left = waitsFor.get(child)! - 1;
			waitsFor.set(child, left);
			if (left === 0) ready.push(child);
		}
	}
	return placed;
}
