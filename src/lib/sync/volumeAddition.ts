import { readVolume } from './clubFetch.ts';
import type { LedgerAddition } from './ledgerDocument.ts';
import { readEntry } from './readEntry.ts';

/** The entries and stamps of a kept volume; erased rows have no text and are left out. */
export async function volumeAddition(bytes: Uint8Array<ArrayBuffer>): Promise<LedgerAddition> {
	const rows = await readVolume(bytes);
	return {
		items: rows.flatMap(({ text }) => (text === '' ? [] : [{ text, entry: readEntry(text) }])),
		stamps: rows.flatMap(({ id, n, stamp }) => (stamp === undefined ? [] : [{ id, n, time: stamp }]))
	};
}
