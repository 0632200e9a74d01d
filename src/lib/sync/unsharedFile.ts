/** What is not shared, as a file that a person can keep and load again, here or on another device. */
import type { Audience, Entry, MemberId } from '#records/entry.ts';
import { limits } from '#protocol/limits.ts';
import type { CandidateRecord, UnsharedRecord } from './deviceDatabase.ts';
import { DeviceError } from './problems.ts';
import { maySend, readEntry } from './readEntry.ts';
import { utf8Bytes } from './writeEntries.ts';

const mark = 'kithline: not yet shared';

export function writeUnsharedFile(
	club: string,
	member: MemberId,
	records: readonly (UnsharedRecord | CandidateRecord)[],
	savedAt: Date
): string {
	const entries = records.map(({ audience, text }) => ({ audience, text }));
	return JSON.stringify(
		{ what: mark, version: 1, club, member, savedAt: savedAt.toISOString(), entries },
		null,
		1
	);
}

export interface UnsharedFile {
	/** Written by this member: they go into the store, ids and texts unchanged. */
	readonly own: readonly Omit<UnsharedRecord, 'order' | 'state'>[];
	/** Of other members: kept aside for an officer. */
	readonly others: readonly CandidateRecord[];
	/** Lines that could not be read. */
	readonly unreadable: number;
}

/** @throws DeviceError `file-not-ours`, `file-other-club` */
export function readUnsharedFile(content: string, club: string, member: MemberId): UnsharedFile {
	const file = parse(content) as { what?: unknown; club?: unknown; entries?: unknown } | null;
	if (file?.what !== mark || !Array.isArray(file.entries)) throw new DeviceError('file-not-ours');
	if (file.club !== club) throw new DeviceError('file-other-club');
	const own: Omit<UnsharedRecord, 'order' | 'state'>[] = [];
	const others: CandidateRecord[] = [];
	let unreadable = 0;
	for (const line of file.entries as { audience?: unknown; text?: unknown }[]) {
		const { audience, text } = line ?? {};
		const entry = typeof text === 'string' ? readEntry(text) : null;
		if (typeof audience !== 'string' || typeof text !== 'string' || !entry || !maySend(entry)) {
			unreadable++;
		} else if (utf8Bytes(text) > limits.maxEntryBytes) {
			unreadable++;
		} else if (entry.by === member) {
			own.push(unsharedRecord(entry, text, audience as Audience));
		} else {
			others.push({ id: entry.id, text, audience: audience as Audience, own: false });
		}
	}
	return { own, others, unreadable };
}

/** An entry that comes back into the store with its text as it is. */
export function unsharedRecord(
	entry: Entry,
	text: string,
	audience: Audience
): Omit<UnsharedRecord, 'order' | 'state'> {
	return { id: entry.id, text, audience, group: entry.together?.[0] ?? entry.id, bytes: utf8Bytes(text) };
}

function parse(text: string): unknown {
	try {
		return JSON.parse(text);
	} catch {
		return null;
	}
}
