/** From what a screen gives to entries with their final texts. */
import type { Audience, DeviceId, Draft, Entry, MemberId } from '#records/entry.ts';
import { limits } from '#protocol/limits.ts';
import type { UnsharedRecord } from './deviceDatabase.ts';
import type { EntryIdMaker } from './newEntryId.ts';
import { DeviceError } from './problems.ts';

export interface Writer {
	readonly member: MemberId;
	readonly device: DeviceId;
	readonly ids: EntryIdMaker;
	versionOf(kind: string): number;
}

export interface WrittenEntry {
	readonly entry: Entry;
	readonly record: Omit<UnsharedRecord, 'order' | 'state'>;
}

/** @throws DeviceError `too-long` or `too-many`, before anything is kept */
export function writeEntries(
	drafts: readonly Draft[],
	audience: Audience,
	writer: Writer,
	nowMs: number
): WrittenEntry[] {
	if (drafts.length > limits.maxTogether) throw new DeviceError('too-many');
	const ids = drafts.map(() => writer.ids.make(nowMs));
	const written = drafts.map((draft, index): WrittenEntry => {
		const entry = tidy({
			id: ids[index]!,
			kind: draft.kind,
			version: writer.versionOf(draft.kind),
			by: writer.member,
			device: writer.device,
			...(draft.toldBy === undefined ? {} : { toldBy: draft.toldBy }),
			happened: draft.happened,
			about: draft.about,
			...(draft.corrects?.length ? { corrects: draft.corrects } : {}),
			...(draft.because ? { because: draft.because } : {}),
			...(drafts.length > 1 ? { together: ids } : {}),
			body: draft.body
		}) as Entry;
		const text = JSON.stringify(entry);
		const bytes = utf8Bytes(text);
		if (bytes > limits.maxEntryBytes) throw new DeviceError('too-long');
		return { entry, record: { id: entry.id, text, audience, group: ids[0]!, bytes } };
	});
	// One writing travels in one update, so it must fit into what may be sent ahead of the answers.
	if (written.reduce((sum, one) => sum + one.record.bytes, 0) > limits.maxUnansweredBytes) {
		throw new DeviceError('too-many');
	}
	return written;
}

export function utf8Bytes(text: string): number {
	return new TextEncoder().encode(text).length;
}

/** Pasted text may hold NUL or half a character; neither is anything a person meant to say. */
function tidy(value: unknown): unknown {
	if (typeof value === 'string') return value.toWellFormed().replaceAll('\0', '');
	if (Array.isArray(value)) return value.map(tidy);
	if (value === null || typeof value !== 'object') return value;
	return Object.fromEntries(
		Object.entries(value).flatMap(([key, inner]) =>
			inner === undefined ? [] : [[tidy(key) as string, tidy(inner)]]
		)
	);
}
