/** The few fields of an entry that the server itself needs; everything else is for the fold. */
import type { Entry } from '#records/entry.ts';

export interface Envelope {
	readonly id: string;
	readonly by: string;
	readonly device: string;
	/** Ids of the same writing; empty = it stands alone. */
	readonly together: readonly string[];
	/** The id's own time, ms since 1970. */
	readonly time: number;
	/** The whole entry as it was parsed; its other fields are unchecked. */
	readonly entry: Entry;
}

/** UUID version 7, lower case (RFC 9562, section 5.7). */
const uuid7 = /^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/;

export function isEntryId(id: unknown): id is string {
	return typeof id === 'string' && uuid7.test(id);
}

/** @returns ms since 1970 in the first 48 bits */
export function timeOfId(id: string): number {
	return Number.parseInt(id.slice(0, 8) + id.slice(9, 13), 16);
}

/** @returns null when the text is not an entry */
export function readEnvelope(text: string): Envelope | null {
	let parsed: unknown;
	try {
		parsed = JSON.parse(text);
	} catch {
		return null;
	}
	if (typeof parsed !== 'object' || parsed === null) return null;
	const { id, by, device, together } = parsed as Record<string, unknown>;
	if (!isEntryId(id) || typeof by !== 'string' || typeof device !== 'string') return null;
	if (together !== undefined && !(Array.isArray(together) && together.every(isEntryId))) return null;
	const ids: readonly string[] = together ?? [];
	return { id, by, device, together: ids, time: timeOfId(id), entry: parsed as Entry };
}
