import { describe, expect, test } from 'vitest';
import { reasons } from '#protocol/reasons.ts';
import { until } from '#tests/helpers/until.ts';
import { clubId, openTestClub } from '#tests/server/ledger/club.ts';
import { entryId, entryText } from '#tests/server/ledger/entries.ts';

const annsLog = 2 ** 40 + 1;
const bobsLog = 2 ** 41 + 1;
const bobs = { by: 'bob', device: 'bob-phone' };

describe('faults', { timeout: 60_000 }, () => {
	test('what fails for one device is undone alone: others of the same group are answered', async () => {
		const club = await openTestClub();
		const ann = await club.device('ann ann-phone', annsLog);
		const bob = await club.device('bob bob-phone', bobsLog);
		for (let round = 0; round < 10; round += 1) {
			ann.add(entryText(100 + round));
			bob.add(entryText(200 + round, bobs));
		}
		ann.add(entryText(1), entryText(2, { kind: 'test/throws' }));
		bob.add(entryText(3, bobs));
		await until('the failing socket to be closed', () => ann.closed.length > 0);
		expect(ann.closed[0]).toBe(reasons.serverError.code);
		ann.disconnect();
		await until('the other’s answers', () => bob.shared.has(entryId(3)));
		bob.add(entryText(4, bobs));
		await until('one more answer', () => bob.shared.has(entryId(4)));
		const rows = await club.server.ledger.openRows(clubId, 'club');
		expect(rows.map(({ n }) => n)).toEqual(rows.map((_, index) => index + 1));
		expect(rows.map(({ id }) => id)).not.toContain(entryId(1));
		expect(ann.shared.has(entryId(1))).toBe(false);
	});

	test('a full disk: nobody is answered, nothing is half there, and all is shared once there is room', async () => {
		const club = await openTestClub();
		const ann = await club.device('ann ann-phone', annsLog);
		ann.add(entryText(1));
		await until('the first answer', () => ann.shared.size === 1);
		const { sqlite } = club.server.database;
		// SQLite's own limit of pages gives the same error as a full disk: SQLITE_FULL.
		const pages = Number(Object.values(sqlite.prepare('PRAGMA page_count').get()!)[0]);
		sqlite.exec(`PRAGMA max_page_count = ${pages}`);
		const texts = Array.from({ length: 40 }, (_, index) =>
			entryText(10 + index, { body: 'x'.repeat(8_000) })
		);
		ann.add(...texts);
		await until('the socket to be closed', () => ann.closed.includes(reasons.serverError.code));
		expect(ann.shared.size).toBe(1);
		expect((await club.server.ledger.openRows(clubId, 'club')).length).toBe(1);
		expect(
			club.server.events.some(
				({ event, about }) => event === 'connection-failed' && String(about.error).includes('full')
			)
		).toBe(true);
		sqlite.exec('PRAGMA max_page_count = 1000000');
		await until('all to be shared', () => ann.unshared.size === 0);
		expect(ann.shared.size).toBe(41);
	});

	test('stopping in good order finishes what is under way and tells devices to come again', async () => {
		const club = await openTestClub();
		const ann = await club.device('ann ann-phone', annsLog);
		ann.add(...Array.from({ length: 150 }, (_, index) => entryText(index)));
		await club.restart();
		await until('the device to be told', () => ann.closed.includes(reasons.closing.code));
		await until('all to be shared', () => ann.unshared.size === 0);
		const rows = await club.server.ledger.openRows(clubId, 'club');
		expect(rows.length).toBe(150);
	});

	test('a wire that does not read is let go, others go on', async () => {
		const club = await openTestClub();
		const slow = await club.device('bob bob-phone', bobsLog);
		const ann = await club.device('ann ann-phone', annsLog);
		slow.pause();
		for (let batch = 0; batch < 60; batch += 1) {
			const texts = Array.from({ length: 40 }, (_, index) =>
				entryText(batch * 40 + index, { body: 'x'.repeat(12_000) })
			);
			ann.add(...texts.slice(0, 20));
			ann.add(...texts.slice(20));
			await until('answers', () => ann.unshared.size === 0);
			if (club.server.sync.sockets === 1) break;
		}
		slow.resume();
		await until('the slow socket to be closed', () => slow.closed.length > 0);
		expect(slow.closed[0]).toBe(reasons.tooMuch.code);
		slow.disconnect();
		expect(ann.closed).toEqual([]);
	});
});
