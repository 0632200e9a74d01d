/** What comes to the fold, read: entries, stamps, and what is neither. */
import type { Entry, Stamp } from './entry.ts';
import { isEnvelope, readEntry } from './item.ts';

export interface FoldInput {
	/** The entry as JSON text, or already parsed; a stamp may come alone, with the id in it. */
	readonly text?: string;
	readonly entry?: Entry;
	readonly stamp?: Stamp;
}

export interface ReadInput {
	readonly entry: Entry | null;
	readonly stamp: Stamp | null;
	/** Neither entry nor stamp, nor the empty text of an erased row. */
	readonly isUnreadable: boolean;
}

export function readAll(inputs: Iterable<FoldInput>): ReadInput[] {
	const read: ReadInput[] = [];
	for (const { entry, text, stamp = null } of inputs) {
		const found = entry ? (isEnvelope(entry) ? entry : null) : text ? readEntry(text) : null;
		read.push({ entry: found, stamp, isUnreadable: !found && !stamp && text !== '' });
	}
	return read;
}

/** The time zone that the first opening among them gives. */
export function zoneIn(read: readonly ReadInput[]): string | null {
	for (const { entry } of read) {
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
