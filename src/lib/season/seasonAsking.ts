import type { Asking } from '#club/question.ts';
import type { Audience, Entry, EntryId } from '#records/entry.ts';

/** Planning may read private words that its member may read; the club state never depends on them. */
export interface SeasonAsking extends Asking {
	readonly privateEntries: ReadonlyMap<Audience, ReadonlyMap<EntryId, Entry>>;
}
