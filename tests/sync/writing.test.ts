import { describe, expect, it } from 'vitest';
import type { Draft } from '#records/entry.ts';
import { limits } from '#protocol/limits.ts';
import { EntryIdMaker, idTimeMs } from '#sync/newEntryId.ts';
import { StatusBoard, type SyncStatus } from '#sync/syncStatus.ts';
import { readUnsharedFile, writeUnsharedFile } from '#sync/unsharedFile.ts';
import { writeEntries, type Writer } from '#sync/writeEntries.ts';

const writer = (): Writer => ({
	member: 'ana',
	device: 'phone',
	ids: new EntryIdMaker(),
	versionOf: () => 3
});
const draft = (body: unknown = {}): Draft => ({ kind: 'group/counted', happened: '2026', about: [], body });
const now = Date.UTC(2026, 2, 14);

describe('EntryIdMaker', () => {
	it('makes ids that rise within a millisecond and when the clock goes back', () => {
		const ids = new EntryIdMaker();
		const made = [now, now, now, now - 60_000, now + 1].map((ms) => ids.make(ms));
		expect([...made].sort()).toEqual(made);
		expect(new Set(made).size).toBe(5);
	});

	it('makes ids later than the highest rank seen, as UUID version 7 (RFC 9562, section 5.7)', () => {
		const ids = new EntryIdMaker();
		ids.see(now + 5_000);
		const id = ids.make(now);
		expect(idTimeMs(id)).toBe(now + 5_001);
		expect(id).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
	});

	it('reads the time of an id: the example of RFC 9562, appendix A.6', () => {
		expect(idTimeMs('017f22e2-79b0-7cc3-98c4-dc0c0c07398f')).toBe(1645557742000);
		expect(idTimeMs('not an id')).toBeNull();
	});
});

describe('writeEntries', () => {
	it('names all of one writing in each, and leaves `together` out of a single one', () => {
		const several = writeEntries([draft(), draft()], 'club', writer(), now);
		const ids = several.map(({ entry }) => entry.id);
		expect(several.map(({ entry }) => entry.together)).toEqual([ids, ids]);
		expect(several.map(({ record }) => record.group)).toEqual([ids[0], ids[0]]);
		const [single] = writeEntries([draft()], 'club', writer(), now);
		expect(single!.entry.together).toBeUndefined();
		expect(single!.entry).toMatchObject({ by: 'ana', device: 'phone', version: 3 });
		expect(JSON.parse(single!.record.text)).toEqual(single!.entry);
	});

	it('measures in bytes, not letters', () => {
		const [one] = writeEntries([draft({ note: 'ü'.repeat(10) })], 'club', writer(), now);
		expect(one!.record.bytes).toBe(new TextEncoder().encode(one!.record.text).length);
		const tooLong = draft({ note: 'ü'.repeat(limits.maxEntryBytes / 2) });
		expect(() => writeEntries([tooLong], 'club', writer(), now)).toThrow('too long');
	});

	it('refuses what would not fit into one update', () => {
		const large = draft({ note: 'x'.repeat(15_000) });
		expect(() => writeEntries(Array(20).fill(large), 'club', writer(), now)).toThrow('too much');
	});
});

describe('the file of what is not shared', () => {
	const records = writeEntries([draft({ note: 'a' }), draft({ note: 'b' })], 'club', writer(), now).map(
		({ record }, order) => ({ ...record, order, state: 'waiting' as const })
	);
	const file = writeUnsharedFile('pond', 'ana', records, new Date(now));

	it('gives back ids, texts, audiences and groups as they were', () => {
		const read = readUnsharedFile(file, 'pond', 'ana');
		expect(read.own).toEqual(records.map(({ order: _order, state: _state, ...record }) => record));
		expect(read).toMatchObject({ others: [], unreadable: 0 });
	});

	it('keeps entries of other members aside', () => {
		expect(readUnsharedFile(file, 'pond', 'ben')).toMatchObject({ own: [], unreadable: 0 });
		expect(readUnsharedFile(file, 'pond', 'ben').others).toHaveLength(2);
	});

	it.each([
		['no JSON', 'hello', 'not a file that this app saved'],
		['other JSON', '[]', 'not a file that this app saved'],
		['another club', writeUnsharedFile('lake', 'ana', records, new Date(now)), 'another club']
	])('says what is wrong: %s', (_name, content, sentence) => {
		expect(() => readUnsharedFile(content, 'pond', 'ana')).toThrow(sentence);
	});

	it('counts lines that are no entries and takes the rest', () => {
		const parsed = JSON.parse(file) as { entries: unknown[] };
		const large = JSON.stringify({ ...JSON.parse(records[0]!.text), body: 'x'.repeat(limits.maxEntryBytes) });
		parsed.entries.push(
			null,
			7,
			{ audience: 'club', text: '{"id":"x","by":"ana"}' },
			{ audience: 'club', text: large }
		);
		const read = readUnsharedFile(JSON.stringify(parsed), 'pond', 'ana');
		expect([read.own.length, read.unreadable]).toEqual([2, 4]);
	});
});

describe('StatusBoard', () => {
	it('shows the gravest problem first and forgets what is mended', () => {
		const told: SyncStatus[] = [];
		const board = new StatusBoard((status) => told.push(status));
		board.problem('clock-wrong', true);
		board.problem('storage-full', true);
		board.problem('storage-full', true);
		expect(board.current.problem?.code).toBe('storage-full');
		expect(told).toHaveLength(2);
		board.problem('storage-full', false);
		expect(board.current.problems.map(({ code }) => code)).toEqual(['clock-wrong']);
	});
});
