/**
 * Volumes: closed rows as JSON lines, compressed, never changed, known by the SHA-256 of the uncompressed bytes.
 * Only an erasure puts another volume in a volume's place, and only volumes are ever rewritten.
 */
import { createHash, randomUUID } from 'node:crypto';
import { promisify } from 'node:util';
import { gunzip, gzip } from 'node:zlib';
import type { VolumeRow } from '#protocol/messages.ts';
import type { ClubChange, NewVolume } from '#server/storage/storage.ts';
import type { ClubMemory } from './clubMemory.ts';
import type { OpenDocument } from './openDocument.ts';

const compress = promisify(gzip);
const decompress = promisify(gunzip);

async function makeVolume(audience: string, rows: readonly VolumeRow[]): Promise<NewVolume> {
	const lines = Buffer.from(rows.map((row) => `${JSON.stringify(row)}\n`).join(''));
	const content = await compress(lines);
	return {
		audience,
		digest: createHash('sha256').update(lines).digest('hex'),
		entries: rows.length,
		bytes: content.byteLength,
		firstRow: rows[0]?.n ?? 0,
		lastRow: rows.at(-1)?.n ?? 0,
		content
	};
}

/** @param content a volume's compressed bytes */
export async function readVolume(content: Uint8Array): Promise<VolumeRow[]> {
	const lines = (await decompress(content)).toString();
	return lines
		.split('\n')
		.filter((line) => line !== '')
		.map((line) => JSON.parse(line) as VolumeRow);
}

/** Closes an open document into a volume and opens the audience's next one. */
export async function closeIntoVolume(change: ClubChange, document: OpenDocument): Promise<void> {
	const rows = document.rows.map(({ n, id, client, clock, text, time, stampClock }): VolumeRow => {
		const row = { n, id, client, clock, text };
		return stampClock === null ? row : { ...row, stamp: time };
	});
	await change.closeDocument(
		document.name,
		rows.length > 0 ? await makeVolume(document.audience, rows) : null
	);
	await change.openDocument(randomUUID(), document.audience);
}

/** Closes every open document that has rows, and names a new edition. */
export async function beginEdition(change: ClubChange, memory: ClubMemory): Promise<string> {
	for (const document of memory.documents.values()) await closeIntoVolume(change, document);
	const edition = randomUUID();
	await change.setEdition(edition);
	return edition;
}

/**
 * Empties entries everywhere in the club. They must stand in volumes already.
 *
 * @returns how many of the ids had a text until now
 */
export async function eraseFromVolumes(change: ClubChange, ids: readonly string[]): Promise<number> {
	const erased = new Set(ids);
	const volumes = await change.volumes();
	const gone = new Set<string>();
	for (const digest of await change.volumesWith(ids)) {
		const content = await change.volume(digest);
		const record = volumes.find((volume) => volume.digest === digest);
		if (!content || !record) throw new Error(`the volume ${digest} is missing`);
		const before = await readVolume(content);
		for (const { id, text } of before) if (erased.has(id) && text !== '') gone.add(id);
		const rows = before.map((row) => (erased.has(row.id) ? { ...row, text: '' } : row));
		await change.rewriteVolume(digest, await makeVolume(record.audience, rows), [...erased]);
	}
	return gone.size;
}
