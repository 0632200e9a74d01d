import type { EntryId } from '#records/entry.ts';
import type { Names } from '#records/kind.ts';
import type { Said, Verdict } from '#records/state.ts';
import type { Asking } from '../question.ts';

/** Who said something and when, with its verdict, as a screen shows it beside what was said. */
export interface Spoken {
	readonly entry: EntryId;
	readonly who: string;
	/** For whom it was typed; '' = for themselves. */
	readonly toldBy: string;
	/** ISO 8601-2, as written. */
	readonly happened: string;
	readonly at: number;
	readonly mine: boolean;
	readonly verdict: Verdict | null;
}

export function spoken(said: Said, names: Names, asking: Asking): Spoken {
	const told = said.toldBy ? names.member(said.toldBy) : '';
	return {
		entry: said.entry,
		who: names.member(said.by),
		// `toldBy` is a member's id or plain words.
		toldBy: told === names.member('') ? (said.toldBy ?? '') : told,
		happened: said.when.text,
		at: said.when.last,
		mine: said.by === asking.me,
		verdict: asking.fold.view(said.entry)?.verdict ?? null
	};
}
