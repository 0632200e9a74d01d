import { describe, expect, test } from 'vitest';
import * as Y from 'yjs';
import { until } from '#tests/helpers/until.ts';
import { clubId, openTestClub } from './club.ts';
import { entry, entryId, entryText } from './entries.ts';

const annsLog = 2 ** 40 + 1;
const bobsLog = 2 ** 41 + 1;

describe('the ledger over real sockets', { timeout: 60_000 }, () => {
	test('an entry is answered by id and reaches another device, which holds an equal document', async () => {
		const club = await openTestClub();
		const ann = await club.device('ann ann-phone', annsLog);
		const bob = await club.device('bob bob-phone', bobsLog);
		ann.add(entryText(1));
		await until('the answer', () => ann.shared.has(entryId(1)));
		await until('the entry at bob', () => bob.ids().has(entryId(1)));
		expect(ann.shared.get(entryId(1))).toBe(1);
		bob.add(entryText(2, { by: 'bob', device: 'bob-phone' }));
		await until('the entry at ann', () => ann.ids().has(entryId(2)));
		expect(ann.entries()).toEqual(bob.entries());
		expect(Y.encodeStateAsUpdate(ann.doc)).toEqual(Y.encodeStateAsUpdate(bob.doc));
	});

	test('a device that comes later gets everything, and equal bytes', async () => {
		const club = await openTestClub();
		const ann = await club.device('ann ann-phone', annsLog);
		ann.add(...Array.from({ length: 50 }, (_, index) => entryText(index)));
		ann.add(entryText(60, { kind: 'line/rulesSet' }));
		await until('all answers', () => ann.shared.size === 51);
		await until('the stamp', () => ann.stamps().length === 1);
		await club.restart();
		const late = await club.device('bob bob-phone', bobsLog);
		expect(late.entries()).toEqual(ann.entries());
		expect(Y.encodeStateAsUpdate(late.doc)).toEqual(Y.encodeStateAsUpdate(ann.doc));
	});

	test('decisions, ids ahead of the clock and the server’s own entries are stamped, facts are not', async () => {
		const club = await openTestClub({ clock: () => 1_700_000_000_500 });
		await club.server.ledger.writeAsClub(clubId, [
			{ kind: 'club/opened', happened: '2023-11-14', about: [], body: {} }
		]);
		const ann = await club.device('ann ann-phone', annsLog);
		const ahead = entryId(3, 1_700_000_000_501);
		ann.add(entryText(1), entryText(2, { kind: 'line/rulesSet' }), entryText(3, { id: ahead }));
		await until('stamps', () => ann.stamps().length === 3);
		const own = [...ann.ids()].find((id) => !ann.shared.has(id));
		expect(ann.stamps().sort((a, b) => a.n - b.n)).toEqual([
			{ id: own, n: 1, time: 1_700_000_000_500 },
			{ id: entryId(2), n: 3, time: 1_700_000_000_500 },
			{ id: ahead, n: 4, time: 1_700_000_000_500 }
		]);
	});

	test('the time of rows never falls when the clock does', async () => {
		let now = 1_700_000_009_000;
		const club = await openTestClub({ clock: () => now });
		const ann = await club.device('ann ann-phone', annsLog);
		ann.add(entryText(1, { kind: 'line/rulesSet' }));
		await until('the first answer', () => ann.shared.size === 1);
		now -= 5_000;
		ann.add(entryText(2, { kind: 'line/rulesSet' }));
		await until('both stamps', () => ann.stamps().length === 2);
		expect(ann.stamps().map(({ time }) => time)).toEqual([1_700_000_009_000, 1_700_000_009_000]);
	});

	test('what was written offline is shared on connecting, also 400 entries', async () => {
		const club = await openTestClub();
		const ann = await club.deviceOffline('ann ann-phone', annsLog);
		ann.add(...Array.from({ length: 400 }, (_, index) => entryText(index)));
		ann.connect();
		await until('all answers', () => ann.shared.size === 400);
		const rows = await club.server.ledger.openRows(clubId, 'club');
		expect(rows.map(({ n }) => n)).toEqual(Array.from({ length: 400 }, (_, index) => index + 1));
	});

	test('too much at once is answered with "later" and comes whole in the end', async () => {
		const club = await openTestClub();
		const ann = await club.deviceOffline('ann ann-phone', annsLog);
		ann.add(...Array.from({ length: 1_500 }, (_, index) => entryText(index)));
		ann.connect();
		await until('all answers', () => ann.shared.size === 1_500);
		expect(ann.has('later')).toBe(true);
		expect(ann.has('log-damaged')).toBe(false);
	});

	test('two pages add one entry id, three devices reconnect twice: all accepted, all equal', async () => {
		const club = await openTestClub();
		const pages = [
			await club.device('ann ann-phone', annsLog),
			await club.device('ann ann-phone', annsLog + 1),
			await club.device('bob bob-phone', bobsLog)
		];
		pages[0]!.add(entryText(1));
		pages[1]!.add(entryText(1));
		pages[0]!.add(entryText(2));
		pages[1]!.add(entryText(3));
		pages[2]!.add(entryText(4, { by: 'bob', device: 'bob-phone' }));
		for (let round = 0; round < 2; round += 1) {
			for (const page of pages) page.disconnect();
			for (const page of pages) page.connect();
			for (const page of pages) await until('synced again', () => page.provider.synced);
		}
		for (const page of pages) {
			await until('nothing unshared', () => page.unshared.size === 0);
			await until('all four entries', () => page.ids().size === 4);
			expect(page.refused.size).toBe(0);
			expect(page.has('fetch-anew') || page.has('log-damaged')).toBe(false);
		}
		await until('equal documents', () =>
			pages.every(
				(page) => JSON.stringify(page.entries()).length === JSON.stringify(pages[0]!.entries()).length
			)
		);
		const found = await club.server.ledger.openRows(clubId, 'club');
		expect(new Set(found.map(({ id }) => id)).size).toBe(4);
	});

	test('[A log bound elsewhere first] the honest page hears "not yours", is never told shared, and shares from a new log', async () => {
		const club = await openTestClub();
		const thief = await club.device('ann ann-tablet', annsLog);
		thief.add(entryText(9, { device: 'ann-tablet' }));
		await until('the thief’s entry', () => thief.shared.size === 1);
		const ann = await club.deviceOffline('ann ann-phone', annsLog);
		ann.add(entryText(1));
		ann.connect();
		await until('the answer', () => ann.has('known'));
		const known = ann.heard.find((message) => message.type === 'known');
		expect(known).toMatchObject({ notYours: [annsLog], ids: [] });
		expect(ann.shared.size).toBe(0);
		const fresh = await club.device('ann ann-phone', annsLog + 7);
		fresh.add(entryText(1));
		await until('the entry from a new log', () => fresh.shared.has(entryId(1)));
	});

	test('an oversized entry, an id with another text: refused by id; what follows is shared from a new log', async () => {
		const club = await openTestClub();
		const ann = await club.device('ann ann-phone', annsLog);
		ann.add(entryText(1));
		await until('the first answer', () => ann.shared.size === 1);
		const huge = entryText(2, { body: 'x'.repeat(17_000) });
		const changed = entryText(1, { body: 'changed' });
		ann.add(huge, entryText(3));
		ann.add(entryText(4));
		await until('two more answers', () => ann.shared.size === 3);
		ann.add(changed, entryText(5));
		await until('one more answer', () => ann.shared.has(entryId(5)));
		expect([...ann.refused]).toEqual([
			[entryId(2), 'too-large'],
			[entryId(1), 'other-text']
		]);
	});

	test('[together] a writing that arrives in two updates is asked for whole, and is one commit', async () => {
		const club = await openTestClub();
		const ann = await club.device('ann ann-phone', annsLog);
		const together = [entryId(1), entryId(2)];
		ann.add(entryText(1, { together }));
		ann.add(entryText(2, { together }));
		await until('both answers', () => ann.shared.size === 2);
		const rows = await club.server.ledger.openRows(clubId, 'club');
		expect(rows.map(({ id }) => id)).toEqual(together);
		expect(rows[0]?.time).toBe(rows[1]?.time);
	});

	test('[together] a part without the rest is never accepted; the device goes on without it', async () => {
		const club = await openTestClub();
		const ann = await club.deviceOffline('ann ann-phone', annsLog);
		ann.add(entryText(1), entryText(2, { together: [entryId(2), entryId(99)] }), entryText(3));
		ann.connect();
		await until('the other two', () => ann.shared.size === 2);
		expect(ann.refused.get(entryId(2))).toBe('together-broken');
		expect([...ann.shared.keys()]).toEqual([entryId(1), entryId(3)]);
	});

	test('an officer brings entries from a saved file: unchanged, noted, once', async () => {
		const club = await openTestClub();
		const bob = await club.device('bob bob-phone', bobsLog);
		const texts = [entryText(1), entryText(2, { kind: 'line/rulesSet' }), entryText(3, { by: 'club' })];
		const officer = { member: 'olga', device: 'olga-desk' };
		expect(await club.server.ledger.bring(clubId, 'club', texts, officer)).toEqual([
			{ id: entryId(3), reason: 'not-yours' },
			{ id: entryId(1), n: 1 },
			{ id: entryId(2), n: 2 }
		]);
		expect(await club.server.ledger.bring(clubId, 'club', texts.slice(0, 2), officer)).toEqual([
			{ id: entryId(1), n: 1 },
			{ id: entryId(2), n: 2 }
		]);
		await until('both at bob', () => bob.ids().size === 2);
		expect(Object.values(bob.entries())).toEqual(expect.arrayContaining(texts.slice(0, 2)));
		expect(bob.stamps()).toMatchObject([{ id: entryId(2), n: 2 }]);
		const rows = await club.server.ledger.openRows(clubId, 'club');
		expect(rows.map(({ member, device, broughtBy }) => [member, device, broughtBy])).toEqual([
			['ann', 'ann-phone', 'olga'],
			['ann', 'ann-phone', 'olga']
		]);
	});

	test('[a saved file on a second phone, then the first phone returns] both are answered, one entry', async () => {
		const club = await openTestClub();
		const second = await club.device('ann ann-new ann-phone', annsLog + 5);
		second.add(entryText(1));
		await until('the second phone’s answer', () => second.shared.size === 1);
		const first = await club.deviceOffline('ann ann-phone', annsLog);
		first.add(entryText(1), entryText(2));
		first.connect();
		await until('the first phone’s answers', () => first.unshared.size === 0);
		await until('two entries on both', () => second.ids().size === 2 && first.ids().size === 2);
	});

	test('a club leaves memory when its last device goes, and comes back', async () => {
		const club = await openTestClub();
		const ann = await club.device('ann ann-phone', annsLog);
		ann.add(entryText(1));
		await until('the answer', () => ann.shared.size === 1);
		expect(club.server.ledger.loadedClubs).toBe(1);
		ann.disconnect();
		await until('the club to be unloaded', () => club.server.ledger.loadedClubs === 0);
		ann.connect();
		ann.add(entryText(2));
		await until('the second answer', () => ann.shared.size === 2);
	});

	test('rows are heard of in order, by audience', async () => {
		const club = await openTestClub();
		const heard: string[] = [];
		club.server.ledger.onRows(({ audience, rows }) => heard.push(...rows.map(({ n }) => `${audience} ${n}`)));
		const draft = { kind: 'club/noted', happened: '2023', about: [], body: {} };
		await club.server.ledger.writeAsClub(clubId, [draft, draft]);
		await club.server.ledger.writeAsClub(clubId, [draft], 'officers');
		await until('three rows', () => heard.length === 3);
		expect(heard).toEqual(['club 1', 'club 2', 'officers 3']);
		expect(entry(1).id).toBe(entryId(1));
	});
});
