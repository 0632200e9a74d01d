import { namesOf } from '#records/names.ts';
import type { ClubState } from '#records/state.ts';
import type { Asking } from '../question.ts';
import { allBags, bagRow, newestFirst, type BagRow } from './bagRow.ts';

export interface BagsList {
	/** Bags that need a person, the member's own first. */
	readonly needed: readonly BagRow[];
	readonly others: readonly BagRow[];
	readonly all: number;
}

/** Bags list: which bags are there, and which of them need somebody? */
export function bagsList(state: ClubState, args: { readonly limit?: number }, asking: Asking): BagsList {
	const names = namesOf(state, null);
	const rows = allBags(state)
		.map((bag) => bagRow(state, bag, names, asking))
		.sort(newestFirst);
	const matters = (row: BagRow) =>
		row.toSettle || (row.mine && row.needs.some((need) => need !== 'rest not filled in'));
	return {
		needed: rows.filter(matters).sort((a, b) => Number(b.mine) - Number(a.mine) || newestFirst(a, b)),
		others: rows.filter((row) => !matters(row)).slice(0, args.limit ?? 60),
		all: rows.length
	};
}
