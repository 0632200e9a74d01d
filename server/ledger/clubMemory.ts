/** What a process holds of a club: the open documents as committed rows give them. Never ahead of the disk. */
import type { Binding, ClubChange, ClubRecord, Row } from '#server/storage/storage.ts';
import { createOpenDocument, type OpenDocument } from './openDocument.ts';

export interface ClubMemory {
	readonly club: string;
	readonly edition: string;
	readonly version: number;
	lastRow: number;
	lastTime: number;
	/** By name. */
	readonly documents: ReadonlyMap<string, OpenDocument>;
	readonly byAudience: ReadonlyMap<string, OpenDocument>;
}

/** @returns null when the club was never created */
export async function loadClub(change: ClubChange): Promise<ClubMemory | null> {
	const record = await change.club();
	if (!record) return null;
	const documents = new Map<string, OpenDocument>();
	const byAudience = new Map<string, OpenDocument>();
	for (const stored of record.documents) {
		const document = createOpenDocument(stored);
		documents.set(document.name, document);
		byAudience.set(document.audience, document);
	}
	const memory: ClubMemory = { ...nothingYet(record), documents, byAudience };
	await readRows(memory, change);
	memory.lastRow = record.lastRow;
	memory.lastTime = record.lastTime;
	return memory;
}

function nothingYet({ club, edition, version }: ClubRecord) {
	return { club, edition, version, lastRow: 0, lastTime: 0 };
}

/** Takes up rows that the memory lacks, and the bindings of their documents. */
async function readRows(memory: ClubMemory, change: ClubChange): Promise<Row[]> {
	const rows = await change.openRowsAfter(memory.lastRow);
	for (const document of memory.documents.values()) {
		const own = rows.filter((row) => row.document === document.name);
		const bindings: Binding[] = own.length > 0 ? await change.bindings(document.name) : [];
		document.add(own, bindings);
	}
	return rows;
}

/**
 * Catches up with other processes, at the beginning of every change.
 *
 * @returns rows that were new to this process, or 'anew' when documents or edition changed and it must load again
 */
export async function catchUp(memory: ClubMemory, change: ClubChange): Promise<readonly Row[] | 'anew'> {
	const record = await change.club();
	if (!record || record.version !== memory.version) return 'anew';
	if (record.lastRow === memory.lastRow) return [];
	const rows = await readRows(memory, change);
	memory.lastRow = record.lastRow;
	memory.lastTime = record.lastTime;
	return rows;
}
