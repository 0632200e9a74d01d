/** What comes to the fold, read: entries, stamps, and what is neither. */
import type { Entry, Stamp } from './entry.ts';
import { idTime } from './rank.ts';

export interface FoldInput {
	/** The entry as JSON text, or already parsed; a stamp may come alone, with the id in it. */
	readonly text?: string;
	readonly entry?: Entry;
	readonly stamp?: Stamp;
}

/** The entry that each input brings; null where it brings none. */
export function readEntries(inputs: readonly FoldInput[]): (Entry | null)[] {
	return inputs.map(({ entry, text }) => {
		if (entry) return isEnvelope(entry) ? entry : null;
		return text ? readEntry(text) : null;
	});
}

/** Reads an entry's text; a malformed one becomes null (it has no id that anything could name). */
function readEntry(text: string): Entry | null {
	try {
		const value: unknown = JSON.parse(text);
		return isEnvelope(value) ? value : null;
	} catch {
		return null;
	}
}

/** Whether a value has the envelope of an entry: what every app, of whatever version, can rely on. */
function isEnvelope(value: unknown): value is Entry {
	if (typeof value !== 'object' || value === null) return false;
	const entry = value as Record<string, unknown>;
	return (
		typeof entry.id === 'string' &&
		idTime(entry.id) !== null &&
		typeof entry.kind === 'string' &&
		Number.isSafeInteger(entry.version) &&
		typeof entry.by === 'string' &&
		typeof entry.device === 'string' &&
		typeof entry.happened === 'string' &&
		isStrings(entry.about) &&
		(entry.corrects === undefined || isStrings(entry.corrects)) &&
		(entry.together === undefined || isStrings(entry.together)) &&
		(entry.toldBy === undefined || typeof entry.toldBy === 'string')
	);
}

function isStrings(value: unknown): value is string[] {
	if (!Array.isArray(value) || value.length > 200) return false;
	for (const one of value as unknown[]) if (typeof one !== 'string') return false;
	return true;
}

/** The time zone that the first opening among them gives. */
export function zoneIn(entries: readonly (Entry | null)[]): string | null {
	for (const entry of entries) {
		if (entry?.kind !== 'club/opened' || entry.by !== 'club') continue;
		const { timeZone } = (entry.body ?? {}) as { timeZone?: unknown };
		if (typeof timeZone === 'string' && isTimeZone(timeZone)) return timeZone;
	}
	return null;
}

export function isTimeZone(zone: string): boolean {
	try {
		new Intl.DateTimeFormat('en', { timeZone: zone });
		return true;
	} catch {
		return false;
	}
}
