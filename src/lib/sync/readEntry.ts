import type { Entry } from '#records/entry.ts';

/** The envelope of an entry's text, as far as sync needs it (an id and a writer); `null` when there is none. */
export function readEntry(text: string): Entry | null {
	try {
		const value = JSON.parse(text) as Partial<Entry> | null;
		return typeof value?.id === 'string' && typeof value.by === 'string' ? (value as Entry) : null;
	} catch {
		return null;
	}
}
