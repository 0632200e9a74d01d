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

const uuid7 = /^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/;

/** Whether an entry from elsewhere (a file) has the envelope that the server requires to tell it apart from noise. */
export function maySend({ id, device, together }: Entry): boolean {
	const ids: unknown = together ?? [];
	return (
		uuid7.test(id) &&
		typeof device === 'string' &&
		Array.isArray(ids) &&
		ids.every((one) => uuid7.test(String(one)))
	);
}
