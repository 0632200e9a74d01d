import { copyFile, readFile, rm } from 'node:fs/promises';
import { createHash } from 'node:crypto';
import { gunzipSync } from 'node:zlib';
import { describe, expect, onTestFinished, test } from 'vitest';
import { reasons } from '#protocol/reasons.ts';
import type { VolumeRow } from '#protocol/messages.ts';
import { limits } from '#protocol/limits.ts';
import { until } from '#tests/helpers/until.ts';
import { clubId, openTestClub, type TestClub } from './club.ts';
import { entryId, entryText } from './entries.ts';
import { startSyncServer } from './syncServer.ts';

const annsLog = 2 ** 40 + 1;
const bobsLog = 2 ** 41 + 1;
const bobs = { by: 'bob', device: 'bob-phone' };

/** Reads a volume as a device does: fetched by digest, checked, one row a line. */
async function volumeRows(club: TestClub, digest: string): Promise<VolumeRow[]> {
	const content = await club.server.ledger.volume(clubId, digest, ['club']);
	const lines = gunzipSync(content!);
	expect(createHash('sha256').update(lines).digest('hex')).toBe(digest);
	return lines
		.toString()
		.trimEnd()
		.split('\n')
		.map((line) => JSON.parse(line) as VolumeRow);
}

const volumesOf = async (club: TestClub) =>
	(await club.server.ledger.manifest(clubId, ['club'])).audiences[0]!.volumes;

describe('volumes and editions', { timeout: 60_000 }, () => {
	test('closing a volume moves all rows into it, sends devices on, and the next document begins anew', async () => {
		const club = await openTestClub({ clock: () => 1_700_000_000_000 });
		const ann = await club.device('ann ann-phone', annsLog);
		ann.add(entryText(1), entryText(2, { kind: 'line/rulesSet' }));
		await until('answers', () => ann.shared.size === 2);
		const before = await club.server.ledger.manifest(clubId, ['club']);
		await club.server.ledger.closeVolume(clubId, 'club');
		await until('the socket to be closed', () => ann.closed[0] === reasons.newEdition.code);
		const after = await club.server.ledger.manifest(clubId, ['club']);
		expect(after.edition).toBe(before.edition);
		expect(after.audiences[0]!.document).not.toBe(before.audiences[0]!.document);
		const [volume] = after.audiences[0]!.volumes;
		expect(volume).toMatchObject({ entries: 2, firstRow: 1, lastRow: 2 });
		expect(await volumeRows(club, volume!.digest)).toEqual([
			{ n: 1, id: entryId(1), client: annsLog, clock: 0, text: entryText(1) },
			{
				n: 2,
				id: entryId(2),
				client: annsLog,
				clock: 1,
				text: entryText(2, { kind: 'line/rulesSet' }),
				stamp: 1_700_000_000_000
			}
		]);
		const anew = await club.deviceOffline('ann ann-phone', annsLog + 9);
		anew.add(entryText(1));
		anew.connect();
		await until('"known"', () => anew.has('known'));
		expect(anew.heard.find(({ type }) => type === 'known')).toMatchObject({
			ids: [{ id: entryId(1), where: 'volume' }]
		});
		anew.add(entryText(3));
		await until('the third entry', () => anew.shared.get(entryId(3)) !== undefined);
	});

	test('an id in a volume takes no other text', async () => {
		const club = await openTestClub();
		const ann = await club.device('ann ann-phone', annsLog);
		ann.add(entryText(1));
		await until('the answer', () => ann.shared.size === 1);
		await club.server.ledger.closeVolume(clubId, 'club');
		ann.disconnect();
		const anew = await club.device('ann ann-phone', annsLog + 9);
		anew.add(entryText(1, { body: 'changed' }));
		await until('the refusal', () => anew.refused.get(entryId(1)) === 'other-text');
	});

	test('a volume is given only to those who may open its audience', async () => {
		const club = await openTestClub();
		await club.server.ledger.writeAsClub(
			clubId,
			[{ kind: 'club/noted', happened: '2023', about: [], body: {} }],
			'officers'
		);
		await club.server.ledger.closeVolume(clubId, 'officers');
		const manifest = await club.server.ledger.manifest(clubId, ['officers']);
		const { digest } = manifest.audiences[0]!.volumes[0]!;
		expect(await club.server.ledger.volume(clubId, digest, ['club'])).toBeNull();
		expect(await club.server.ledger.volume(clubId, digest, ['officers'])).not.toBeNull();
		expect(await club.server.ledger.volume('club-2', digest, ['officers'])).toBeNull();
	});

	test('an open document is closed by itself at its limit of logs, and nothing is lost', async () => {
		const club = await openTestClub();
		const texts = Array.from({ length: limits.openDocumentEntries + 10 }, (_, index) => entryText(index));
		const officer = { member: 'olga', device: 'desk' };
		for (let from = 0; from < texts.length; from += 500)
			await club.server.ledger.bring(clubId, 'club', texts.slice(from, from + 500), officer);
		await until('a volume', async () => (await volumesOf(club)).length > 0);
		const [volume] = await volumesOf(club);
		const open = await club.server.ledger.openRows(clubId, 'club');
		const rows = await volumeRows(club, volume!.digest);
		expect([...rows, ...open].map(({ id }) => id)).toEqual(texts.map((_, index) => entryId(index)));
	});

	test('an open document is closed at the turn of the year', async () => {
		let now = Date.UTC(2023, 11, 31, 23, 59);
		const club = await openTestClub({ clock: () => now });
		const ann = await club.device('ann ann-phone', annsLog);
		ann.add(entryText(1));
		await until('the answer', () => ann.shared.size === 1);
		now = Date.UTC(2024, 0, 1);
		ann.add(entryText(2));
		await until('the volume', async () => (await volumesOf(club)).length === 1);
		await until('the socket to be sent on', () => ann.closed.includes(reasons.newEdition.code));
	});

	test('erasing empties the entry in rows, volumes and the file itself, and begins an edition', async () => {
		const club = await openTestClub();
		const secret = 'a-street-that-must-go';
		const ann = await club.device('ann ann-phone', annsLog);
		ann.add(entryText(1, { body: secret }), entryText(2));
		await until('answers', () => ann.shared.size === 2);
		const before = await club.server.ledger.manifest(clubId, ['club']);
		expect(await club.server.ledger.erase(clubId, [entryId(1), entryId(77)])).toBe(1);
		await until('the socket to be closed', () => ann.closed[0] === reasons.newEdition.code);
		const after = await club.server.ledger.manifest(clubId, ['club']);
		expect(after.edition).not.toBe(before.edition);
		const rows = await volumeRows(club, after.audiences[0]!.volumes[0]!.digest);
		expect(rows.map(({ id, text }) => [id, text])).toEqual([
			[entryId(1), ''],
			[entryId(2), entryText(2)]
		]);
		for (const file of [club.file, `${club.file}-wal`]) {
			const bytes = await readFile(file).catch(() => Buffer.alloc(0));
			expect(bytes.includes(secret)).toBe(false);
		}
		ann.disconnect();
		const again = await club.deviceOffline('ann ann-phone', annsLog + 9);
		again.add(entryText(1, { body: secret }), entryText(3));
		again.connect();
		await until('the refusal', () => again.refused.get(entryId(1)) === 'erased');
		await until('the other entry', () => again.shared.has(entryId(3)));
		expect(again.heard.find(({ type }) => type === 'known')).toMatchObject({
			ids: [{ id: entryId(1), where: 'erased' }]
		});
	});

	test('erasing twice finds the entry in volumes rewritten before', async () => {
		const club = await openTestClub();
		const ann = await club.device('ann ann-phone', annsLog);
		ann.add(entryText(1), entryText(2));
		await until('answers', () => ann.shared.size === 2);
		await club.server.ledger.erase(clubId, [entryId(1)]);
		expect(await club.server.ledger.erase(clubId, [entryId(2), entryId(1)])).toBe(1);
		const rows = await volumeRows(club, (await volumesOf(club))[0]!.digest);
		expect(rows.map(({ text }) => text)).toEqual(['', '']);
	});

	test('a change of keepers opens a document of its own; the room’s earlier one stays with its readers', async () => {
		const club = await openTestClub();
		const first = await club.server.ledger.openRoomEpoch(clubId, 'harbour');
		const second = await club.server.ledger.openRoomEpoch(clubId, 'harbour', 'epoch-2');
		expect(second).toBe('room:harbour:epoch-2');
		expect(await club.server.ledger.openRoomEpoch(clubId, 'harbour', 'epoch-2')).toBe(second);
		expect(await club.server.ledger.audiences(clubId)).toEqual(['club', 'officers', first, second]);
		const ann = await club.device('ann ann-phone', annsLog, first);
		const bob = await club.device('bob bob-phone', bobsLog, second);
		ann.add(entryText(1));
		bob.add(entryText(2, bobs));
		await until('answers', () => ann.shared.size === 1 && bob.shared.size === 1);
		expect([ann.ids(), bob.ids()]).toEqual([new Set([entryId(1)]), new Set([entryId(2)])]);
		bob.add(entryText(1));
		await until('the refusal', () => bob.refused.size === 1);
	});
});

describe('a database put back', { timeout: 60_000 }, () => {
	/** Ann and Bob write 8 entries, the file is copied, they write 2 more, the copy is put back. */
	async function restored(between: (club: TestClub) => Promise<void> = async () => {}) {
		const club = await openTestClub();
		const ann = await club.device('ann ann-phone', annsLog);
		const bob = await club.device('bob bob-phone', bobsLog);
		ann.add(...[1, 2, 3, 4].map((number) => entryText(number)));
		bob.add(...[5, 6, 7, 8].map((number) => entryText(number, bobs)));
		await until('eight answers', () => ann.shared.size + bob.shared.size === 8);
		const copy = `${club.file}.copy`;
		onTestFinished(() => rm(copy, { force: true }));
		await club.restart(() => copyFile(club.file, copy));
		ann.add(entryText(9));
		bob.add(entryText(10, bobs));
		await until('ten answers', () => ann.shared.size + bob.shared.size === 10);
		await until('ten entries', () => ann.ids().size === 10 && bob.ids().size === 10);
		ann.disconnect();
		bob.disconnect();
		await club.restart(async () => {
			for (const end of ['', '-wal', '-shm']) await rm(club.file + end, { force: true });
			await copyFile(copy, club.file);
		});
		await between(club);
		return { club, ann, bob };
	}

	test('a device that knows a higher row: the operator is told, a new edition begins', async () => {
		const { club, ann } = await restored();
		const before = await club.server.ledger.manifest(clubId, ['club']);
		expect(before.lastRow).toBe(8);
		ann.connect();
		await until('the socket to be closed', () => ann.closed.includes(reasons.newEdition.code));
		expect(club.server.events).toContainEqual({
			event: 'rows-missing',
			about: {
				club: clubId,
				device: 'ann-phone',
				highestRow: Math.max(...ann.shared.values()),
				lastRow: expect.any(Number)
			}
		});
		const after = await club.server.ledger.manifest(clubId, ['club']);
		expect(after.edition).not.toBe(before.edition);
		ann.disconnect();
	});

	test('all rows refilled by others since: the row’s id shows it, though the number does not', async () => {
		const { club, ann } = await restored(async (club) => {
			const officer = { member: 'olga', device: 'desk' };
			await club.server.ledger.bring(
				clubId,
				'club',
				[20, 21, 22].map((number) => entryText(number)),
				officer
			);
		});
		ann.connect();
		await until('the operator to be told', () =>
			club.server.events.some(({ event }) => event === 'rows-missing')
		);
		await until('the socket to be closed', () => ann.closed.includes(reasons.newEdition.code));
		ann.disconnect();
	});

	test('everything that a device still holds comes back, and all end equal', async () => {
		const { club, ann, bob } = await restored();
		ann.connect();
		await until('the new edition', () => ann.closed.includes(reasons.newEdition.code));
		// What a device does on moving: its own entries go back into its store, the server is asked about them.
		const texts = (device: typeof ann) => Object.values(device.entries()).map(String);
		const anns = texts(ann).filter((text) => text.includes('"by":"ann"'));
		const bobsTexts = texts(bob).filter((text) => text.includes('"by":"bob"'));
		ann.disconnect();
		const annAnew = await club.deviceOffline('ann ann-phone', annsLog + 50);
		const bobAnew = await club.deviceOffline('bob bob-phone', bobsLog + 50);
		annAnew.add(...anns);
		bobAnew.add(...bobsTexts);
		annAnew.connect();
		bobAnew.connect();
		await until('nothing unshared', () => annAnew.unshared.size + bobAnew.unshared.size === 0);
		const volumes = await volumesOf(club);
		const closed = (await Promise.all(volumes.map(({ digest }) => volumeRows(club, digest)))).flat();
		const open = await club.server.ledger.openRows(clubId, 'club');
		const ids = new Set([...closed, ...open].map(({ id }) => id));
		expect([...ids].sort()).toEqual(Array.from({ length: 10 }, (_, index) => entryId(index + 1)).sort());
		await until(
			'equal documents',
			() => JSON.stringify([...annAnew.ids()].sort()) === JSON.stringify([...bobAnew.ids()].sort())
		);
		expect(annAnew.has('fetch-anew') || bobAnew.has('fetch-anew')).toBe(false);
	});

	test('a device cannot set off editions again and again', async () => {
		const club = await openTestClub();
		const eve = await club.device('eve eve-phone', 2 ** 42);
		const claim = { type: 'mine', ids: [], logs: [], highestRow: 1_000_000 };
		eve.say(claim);
		await until('the first edition', () => eve.closed.length > 0);
		eve.disconnect();
		const { edition } = await club.server.ledger.manifest(clubId, ['club']);
		const again = await club.device('eve eve-phone', 2 ** 42 + 1);
		again.say(claim);
		await until('the answer', () => again.heard.filter(({ type }) => type === 'known').length === 2);
		expect((await club.server.ledger.manifest(clubId, ['club'])).edition).toBe(edition);
	});

	test('a struct of another’s log that the server lost: fetch anew, not blame', async () => {
		const { club, bob } = await restored();
		// Bob's number is not higher than the server's, so only the structs of Ann's log tell.
		bob.shared.clear();
		bob.connect();
		await until('"fetch anew"', () => bob.has('fetch-anew'));
		expect(bob.closed).not.toContain(reasons.brokenRules.code);
		expect(club.server.events.some(({ event }) => event === 'foreign-structs')).toBe(true);
	});
});

describe('several processes over one file', { timeout: 60_000 }, () => {
	test('a process 10 rows back: the device hears no "fetch anew", and the process catches up', async () => {
		const club = await openTestClub();
		const other = await startSyncServer({ file: club.file });
		onTestFinished(() => other.close());
		const keeper = await club.device('bob bob-phone', bobsLog);
		const { SyncClient } = await import('./syncClient.ts');
		const manifest = await other.ledger.manifest(clubId, ['club']);
		const asked = async () => manifest;
		const there = { port: other.port, club: clubId, manifest: asked };
		const holder = new SyncClient({ ...there, who: 'cy cy-phone', client: 2 ** 44 }, manifest);
		onTestFinished(() => holder.destroy());
		holder.connect();
		await until('the other process to have loaded', () => holder.provider.synced);
		keeper.add(...Array.from({ length: 10 }, (_, index) => entryText(index, bobs)));
		await until('ten answers', () => keeper.shared.size === 10);
		keeper.disconnect();
		// Bob's next connection reaches the other process, which holds none of the ten.
		const moved = new SyncClient({ ...there, who: 'bob bob-phone', client: bobsLog }, manifest, keeper.doc);
		onTestFinished(() => moved.destroy());
		moved.connect();
		await until('synced', () => moved.provider.synced);
		moved.add(entryText(11, bobs));
		await until('the answer', () => moved.shared.get(entryId(11)) === 11);
		await until('all eleven at the other device', () => holder.ids().size === 11);
		expect(moved.has('fetch-anew') || moved.has('log-damaged')).toBe(false);
	});

	test('a volume closed by another process: the device is sent on', async () => {
		const club = await openTestClub();
		const other = await startSyncServer({ file: club.file });
		onTestFinished(() => other.close());
		const ann = await club.device('ann ann-phone', annsLog);
		ann.add(entryText(1));
		await until('the answer', () => ann.shared.size === 1);
		await other.ledger.closeVolume(clubId, 'club');
		ann.add(entryText(2));
		await until('the socket to be sent on', () => ann.closed.includes(reasons.newEdition.code));
		expect(ann.unshared.size).toBe(1);
	});
});
