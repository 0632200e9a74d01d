/** What is fetched over HTTP: the manifest, asked for before connecting, and closed volumes, checked by digest. */
import { sha256 } from './sha256.ts';
import type { MemberId } from '#records/entry.ts';
import type { Manifest, ManifestVolume, VolumeRow } from '#protocol/messages.ts';

export type ManifestAnswer =
	| { readonly manifest: Manifest }
	| { readonly failure: 'signed-out' | 'not-allowed' | 'app-too-old' | 'unreachable' };

/** @param member whose ledger it is for: the session of this browser may have become another member's meanwhile */
export async function fetchManifest(
	serverUrl: string,
	club: string,
	member: MemberId,
	signal: AbortSignal
): Promise<ManifestAnswer> {
	try {
		const path = `/api/clubs/${encodeURIComponent(club)}/manifest?member=${encodeURIComponent(member)}`;
		const answer = await fetch(`${serverUrl}${path}`, {
			cache: 'no-store',
			credentials: 'include',
			signal
		});
		if (answer.status === 401) return { failure: 'signed-out' };
		if (answer.status === 403 || answer.status === 404) return { failure: 'not-allowed' };
		if (answer.status === 426) return { failure: 'app-too-old' };
		if (!answer.ok) return { failure: 'unreachable' };
		return { manifest: (await answer.json()) as Manifest };
	} catch {
		return { failure: 'unreachable' };
	}
}

/** @returns gzipped bytes whose uncompressed form has the digest; `damaged` when it has not */
export async function fetchVolume(
	serverUrl: string,
	club: string,
	volume: ManifestVolume,
	signal: AbortSignal
): Promise<Uint8Array<ArrayBuffer> | 'damaged' | 'unreachable'> {
	try {
		const answer = await fetch(
			`${serverUrl}/api/clubs/${encodeURIComponent(club)}/volumes/${volume.digest}`,
			{
				credentials: 'include',
				signal
			}
		);
		if (!answer.ok) return 'unreachable';
		const bytes = new Uint8Array(await answer.arrayBuffer());
		const compressed = isGzipped(bytes) ? bytes : await pass(bytes, new CompressionStream('gzip'));
		const plain = await decompress(compressed);
		return (await sha256(plain)) === volume.digest ? compressed : 'damaged';
	} catch (error) {
		// What cannot be decompressed has arrived damaged; fetch itself fails with a TypeError that says nothing more.
		return error instanceof DamagedVolume ? 'damaged' : 'unreachable';
	}
}

/** The rows of a kept volume. */
export async function readVolume(compressed: Uint8Array<ArrayBuffer>): Promise<VolumeRow[]> {
	const text = new TextDecoder().decode(await decompress(compressed));
	const rows: VolumeRow[] = [];
	for (const line of text.split('\n')) if (line !== '') rows.push(JSON.parse(line) as VolumeRow);
	return rows;
}

class DamagedVolume extends Error {}

async function decompress(bytes: Uint8Array<ArrayBuffer>): Promise<Uint8Array<ArrayBuffer>> {
	try {
		return await pass(bytes, new DecompressionStream('gzip'));
	} catch (cause) {
		throw new DamagedVolume('volume cannot be decompressed', { cause });
	}
}

async function pass(
	bytes: Uint8Array<ArrayBuffer>,
	through: CompressionStream | DecompressionStream
): Promise<Uint8Array<ArrayBuffer>> {
	return new Uint8Array(await new Response(new Blob([bytes]).stream().pipeThrough(through)).arrayBuffer());
}

/** The browser undoes a Content-Encoding by itself, so the bytes may come either way. */
function isGzipped(bytes: Uint8Array): boolean {
	return bytes[0] === 0x1f && bytes[1] === 0x8b;
}
