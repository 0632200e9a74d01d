/**
 * What a question of the club is: a pure function from the state to plain data, asked on every device alike. Nothing
 * in it reads a clock or a store of its own.
 */
import type { EntryId, MemberId } from '#records/entry.ts';
import type { Fold } from '#records/fold.ts';
import type { ClubState } from '#records/state.ts';

export interface Asking {
	/** ms since 1970. */
	readonly now: number;
	readonly me: MemberId;
	readonly fold: AskedFold;
}
/** What a question may ask of the fold besides the state: single entries and what became of them. */
export type AskedFold = Pick<Fold, 'entry' | 'view' | 'ids' | 'speakingOf' | 'rankOf'>;

export type Question<Args, Answer> = (state: ClubState, args: Args, asking: Asking) => Answer;

export const dayMs = 86_400_000;

/** A later statement wins: by its last possible moment, then by the id of its entry. */
export function laterSaid(
	a: { readonly when: { readonly last: number }; readonly entry: EntryId },
	b: { readonly when: { readonly last: number }; readonly entry: EntryId }
): boolean {
	return a.when.last !== b.when.last ? a.when.last > b.when.last : a.entry > b.entry;
}
