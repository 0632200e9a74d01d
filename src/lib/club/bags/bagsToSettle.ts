import { namesOf } from '#records/names.ts';
import type { ClubState } from '#records/state.ts';
import type { Asking } from '../question.ts';
import { allBags, bagRow, newestFirst, type BagRow } from './bagRow.ts';

export interface BagsToSettle {
	/** Bags that were bagged, handed over or received in that time. */
	readonly bags: number;
	readonly toSettle: readonly BagRow[];
	/** "7 bags, 2 to settle"; "no bags" when there were none. */
	readonly words: string;
}

/**
 * Bags to settle: after a meeting, how many bags moved, and which of them do people have to look at?
 *
 * @param args.from first moment, ms since 1970
 * @param args.to moment after the last
 */
export function bagsToSettle(
	state: ClubState,
	args: { readonly from: number; readonly to: number },
	asking: Asking
): BagsToSettle {
	const names = namesOf(state, null);
	const within = (at: number) => at >= args.from && at < args.to;
	const moved = allBags(state).filter((bag) =>
		[...bag.statements, ...bag.handOvers, ...bag.arrivals].some((said) => within(said.when.last))
	);
	const rows = moved.map((bag) => bagRow(state, bag, names, asking)).filter((row) => row.toSettle);
	return { bags: moved.length, toSettle: rows.sort(newestFirst), words: words(moved.length, rows.length) };
}

function words(bags: number, open: number): string {
	if (bags === 0) return 'no bags';
	return `${bags} ${bags === 1 ? 'bag' : 'bags'}, ${open === 0 ? 'nothing to settle' : `${open} to settle`}`;
}
