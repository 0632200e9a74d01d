import { namesOf } from '#records/names.ts';
import type { ClubState } from '#records/state.ts';
import type { Asking } from '../question.ts';
import { allBags, bagRow, newestFirst, type BagRow } from './bagRow.ts';

/**
 * Bags today: what was said of bags since this moment, newest first?
 *
 * @param args.since ms since 1970, usually the last midnight
 */
export function bagsToday(state: ClubState, args: { readonly since: number }, asking: Asking): BagRow[] {
	const names = namesOf(state, null);
	return allBags(state)
		.map((bag) => bagRow(state, bag, names, asking))
		.filter((row) => row.lastAt >= args.since && row.lastAt <= asking.now + clockSlack)
		.sort(newestFirst);
}

/** A neighbour's clock may be a little ahead. */
const clockSlack = 15 * 60_000;
