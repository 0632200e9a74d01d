import type { Audience, Entry, EntryId } from '#records/entry.ts';
import { namesOf, sentenceOf } from '#records/names.ts';
import { idTime } from '#records/rank.ts';
import type { ClubState, Verdict } from '#records/state.ts';
import type { Asking } from '../question.ts';

export interface NotSharedRow {
	readonly id: EntryId;
	readonly sentence: string;
	/** ISO 8601-2, as written. */
	readonly happened: string;
	/** When it was written down, ms since 1970. */
	readonly written: number;
	/** Private words: for which room's keepers, or for whom else; '' = for the club. */
	readonly only: string;
	readonly verdict: Verdict | null;
}

/**
 * Not shared: what do these entries of this device say? Those that no state holds, since the club knows their ids with
 * other words, are left out.
 *
 * @param args.ids as the device's store lists them
 */
export function notShared(
	state: ClubState,
	args: { readonly ids: readonly { readonly id: EntryId; readonly audience: Audience }[] },
	asking: Asking & {
		readonly privateEntries: ReadonlyMap<Audience, ReadonlyMap<EntryId, Entry>>;
	}
): NotSharedRow[] {
	const names = namesOf(state, asking.fold);
	const rows: NotSharedRow[] = [];
	for (const { id, audience } of args.ids) {
		const entry = audience === 'club' ? asking.fold.entry(id) : asking.privateEntries.get(audience)?.get(id);
		if (!entry) continue;
		const sentence = sentenceOf(entry, names);
		rows.push({
			id,
			sentence: sentence.charAt(0).toUpperCase() + sentence.slice(1),
			happened: entry.happened,
			written: idTime(id) ?? 0,
			only: audience === 'club' ? '' : wordsFor(audience, names.room),
			verdict: audience === 'club' ? (asking.fold.view(id)?.verdict ?? null) : null
		});
	}
	return rows.sort((one, other) => (one.id < other.id ? 1 : -1));
}

function wordsFor(audience: Audience, room: (id: string) => string): string {
	const [, id] = audience.split(':');
	return id === undefined ? 'officers and coordinators' : room(id);
}
