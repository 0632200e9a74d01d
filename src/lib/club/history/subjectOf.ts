import type { Entry, EntryId } from '#records/entry.ts';
import type { Kind, ThingRef } from '#records/kind.ts';
import { kinds } from '#records/kinds.ts';
import type { AskedFold } from '../question.ts';

export interface Subject {
	readonly entry: Entry;
	readonly kind: Kind<unknown>;
	readonly body: unknown;
	readonly things: readonly ThingRef[];
}

/**
 * What an entry is about: itself, or for a word about another entry (a doubt, a taking back) that entry; null when it
 * has not come or is not understood.
 */
export function subjectOf(id: EntryId, fold: Pick<AskedFold, 'entry'>): Subject | null {
	const seen = new Set<EntryId>();
	for (let at: EntryId | undefined = id; at !== undefined && !seen.has(at);) {
		seen.add(at);
		const entry = fold.entry(at);
		const kind = entry && kinds.get(entry.kind);
		const read = kind && entry.version <= kind.version ? kind.schema.safeParse(entry.body) : null;
		if (!entry || !kind || !read?.success) return null;
		const things = kind.things(read.data);
		if (things.length) return { entry, kind, body: read.data, things };
		at = kind.speaksOf?.(read.data).at(-1) ?? entry.corrects?.[0];
	}
	return null;
}
