import { expect, test } from '@playwright/test';
import { v7 } from 'uuid';
import { bindLog } from '#tests/sync/harness/bindLog.ts';
import { until } from '#tests/helpers/until.ts';
import {
	allShared,
	closeDevices,
	club,
	isConnected,
	newDevice,
	notes,
	openDevice,
	problemOf,
	seesNotes,
	sharingOf,
	SyncHarness,
	write
} from '#tests/sync/harness/syncHarness.ts';

const harness = new SyncHarness(4334);

test.beforeAll(() => harness.start());
test.beforeEach(() => harness.newClub());
test.afterEach(closeDevices);
test.afterAll(() => harness.stop());

test('volumes: closed under the devices, read by a new one, and again after a reload without the server', async ({
	browser
}) => {
	const ana = await newDevice(browser, harness.url, 'ana', 'ana-phone');
	await write(ana, 'a', 'b');
	await allShared(ana);
	await harness.control({ what: 'close-volume' });
	await write(ana, 'c');
	await allShared(ana);
	const ben = await newDevice(browser, harness.url, 'ben', 'ben-phone');
	for (const page of [ana, ben]) await seesNotes(page, ['a', 'b', 'c']);
	await harness.stopLedger();
	await openDevice(ben, harness.url, 'ben', 'ben-phone');
	await seesNotes(ben, ['a', 'b', 'c']);
	await write(ben, 'd');
	await harness.startLedger();
	for (const page of [ana, ben]) await seesNotes(page, ['a', 'b', 'c', 'd']);
});

test('5,000 entries from a file, over the closing of a volume', async ({ browser }) => {
	test.setTimeout(180_000);
	const ana = await newDevice(browser, harness.url, 'ana', 'ana-phone');
	await isConnected(ana, true);
	const start = Date.parse('2026-01-01T00:00:00Z');
	const ids = Array.from({ length: 5_000 }, (_, index) => v7({ msecs: start + index }));
	const entries = ids.map((id, index) => ({
		audience: 'club',
		text: JSON.stringify({
			id,
			kind: 'group/counted',
			version: 1,
			by: 'ana',
			device: 'ana-old',
			happened: '2026-01-01',
			about: ['group-1'],
			body: { note: `row ${index}` }
		})
	}));
	const file = JSON.stringify({ what: 'kithline: not yet shared', version: 1, club, member: 'ana', entries });
	expect(await ana.evaluate((content) => window.club.importFile(content), file)).toEqual({
		added: 5_000,
		aside: 0,
		unreadable: 0
	});
	await allShared(ana, 120_000);
	expect((await harness.find(ids)).size).toBe(5_000);
	const ben = await newDevice(browser, harness.url, 'ben', 'ben-phone');
	await until('the second device to have all', async () => (await notes(ben)).length === 5_000, 60_000);
	expect((await notes(ana)).length).toBe(5_000);
	// Opened again: the first time folded from what is kept here, then from the saved state, both with no server.
	await harness.stopLedger();
	await openDevice(ana, harness.url, 'ana', 'ana-phone');
	expect((await notes(ana)).length).toBe(5_000);
	await until('the state to be saved', () =>
		ana.evaluate(async () => (await window.harness.meta('savedFold')) !== undefined)
	);
	await openDevice(ana, harness.url, 'ana', 'ana-phone');
	const late = await write(ana, 'one more');
	expect((await notes(ana)).length).toBe(5_001);
	await harness.startLedger();
	await allShared(ana);
	expect((await harness.find(late)).size).toBe(1);
});

test('erased by the club: gone from every device, and no device brings it back', async ({ browser }) => {
	const ana = await newDevice(browser, harness.url, 'ana', 'ana-phone');
	const ben = await newDevice(browser, harness.url, 'ben', 'ben-phone');
	const [mistake] = await write(ana, 'a mistake', 'kept');
	await allShared(ana);
	await seesNotes(ben, ['a mistake', 'kept']);
	await ben.context().setOffline(true);
	await harness.control({ what: 'erase', ids: [mistake] });
	await seesNotes(ana, ['kept']);
	await ben.context().setOffline(false);
	await seesNotes(ben, ['kept']);
	await write(ben, 'later');
	for (const page of [ana, ben]) {
		await seesNotes(page, ['kept', 'later']);
		expect(await page.evaluate(() => window.club.status.aside)).toBe(0);
	}
	expect((await harness.find([mistake!])).get(mistake!)).toBe('erased');
});

test('erased while a copy of it waits in a file: told, and dropped from the device', async ({ browser }) => {
	await harness.stopLedger();
	const ana = await newDevice(browser, harness.url, 'ana', 'ana-phone');
	const [mistake] = await write(ana, 'a mistake');
	const file = await ana.evaluate(() => window.club.exportUnshared());
	await harness.startLedger();
	await allShared(ana);
	await harness.control({ what: 'erase', ids: [mistake] });
	const old = await newDevice(browser, harness.url, 'ana', 'ana-old');
	await isConnected(old, true);
	await old.evaluate((content) => window.club.importFile(content), file);
	await allShared(old);
	await seesNotes(old, []);
	await write(old, 'goes on');
	await allShared(old);
});

test('backup, erase, restore: all devices end equal, and what a device still holds is back', async ({
	browser
}) => {
	const ana = await newDevice(browser, harness.url, 'ana', 'ana-phone');
	const ben = await newDevice(browser, harness.url, 'ben', 'ben-phone');
	const [first] = await write(ana, 'first', 'second');
	await allShared(ana);
	await harness.backup('backup');
	const late = [...(await write(ana, 'third', 'fourth')), ...(await write(ben, 'from ben'))];
	for (const page of [ana, ben]) await allShared(page);
	await harness.control({ what: 'erase', ids: [first] });
	for (const page of [ana, ben]) await seesNotes(page, ['fourth', 'from ben', 'second', 'third']);
	await harness.restore('backup');
	// The backup is older than the erasing, so it holds the entry: an operator erases it again.
	for (const page of [ana, ben]) await seesNotes(page, ['first', 'fourth', 'from ben', 'second', 'third']);
	for (const page of [ana, ben]) await allShared(page);
	expect((await harness.find(late)).size).toBe(3);
	const cleo = await newDevice(browser, harness.url, 'cleo', 'cleo-phone');
	await seesNotes(cleo, ['first', 'fourth', 'from ben', 'second', 'third']);
});

test('a database file copied back: own entries are shared again, others’ are held aside and told', async ({
	browser
}) => {
	const ana = await newDevice(browser, harness.url, 'ana', 'ana-phone');
	const ben = await newDevice(browser, harness.url, 'ben', 'ben-phone');
	await write(ana, 'in the backup');
	await allShared(ana);
	await harness.backup('backup');
	const lost = await write(ana, 'only ana and ben know');
	await allShared(ana);
	const own = await write(ben, 'ben’s own');
	await allShared(ben);
	await seesNotes(ben, ['ben’s own', 'in the backup', 'only ana and ben know']);
	await ana.context().setOffline(true);
	await harness.restore('backup');
	await allShared(ben);
	await until('ben to share his own again', async () => (await harness.find(own)).size === 1);
	await until('ben to hold one aside', async () => (await problemOf(ben)) === 'aside');
	expect(await ben.evaluate(() => window.club.status.aside)).toBe(1);
	expect(await ben.evaluate(() => window.club.exportUnshared())).toContain('only ana and ben know');
	// Its writer comes back, and the matter is settled.
	await ana.context().setOffline(false);
	await until('ana to share hers again', async () => (await harness.find(lost)).size === 1);
	harness.wire.cut();
	await until('ben to hold nothing aside', () => ben.evaluate(() => window.club.status.aside === 0));
	for (const page of [ana, ben])
		await seesNotes(page, ['ben’s own', 'in the backup', 'only ana and ben know']);
});

test('what the club lost comes back from an officer’s device, ids and texts unchanged', async ({
	browser
}) => {
	const ana = await newDevice(browser, harness.url, 'ana', 'ana-phone');
	const ben = await newDevice(browser, harness.url, 'ben', 'ben-phone');
	const officer = await newDevice(browser, harness.url, 'officer', 'officer-phone');
	for (const page of [ana, ben, officer]) await isConnected(page, true);
	await harness.backup('backup');
	const lost = await ana.evaluate(() => window.harness.writeTogether(['one', 'two']));
	await allShared(ana);
	for (const page of [ben, officer]) await seesNotes(page, ['one', 'two']);
	// Its writer can no longer sign in.
	await ana.close();
	await harness.restore('backup');
	for (const page of [ben, officer]) {
		await until('the device to hold two aside', () => page.evaluate(() => window.club.status.aside === 2));
	}
	expect(await ben.evaluate(() => window.club.bringAside().catch((error: Error) => error.message))).toContain(
		'Only an officer'
	);
	expect(await officer.evaluate(() => window.club.bringAside())).toEqual({ brought: 2, left: 0 });
	expect((await harness.find(lost)).size).toBe(2);
	for (const page of [ben, officer]) await seesNotes(page, ['one', 'two']);
	await until('the officer to hold nothing aside', () =>
		officer.evaluate(() => window.club.status.aside === 0)
	);
});

test('a restored club filled the same rows again: nobody takes one for the other', async ({ browser }) => {
	const ana = await newDevice(browser, harness.url, 'ana', 'ana-phone');
	const ben = await newDevice(browser, harness.url, 'ben', 'ben-phone');
	for (const page of [ana, ben]) await isConnected(page, true);
	await harness.backup('backup');
	const lost = await write(ana, 'row one of before');
	await allShared(ana);
	await ana.context().setOffline(true);
	await ben.context().setOffline(true);
	await harness.restore('backup');
	const dora = await newDevice(browser, harness.url, 'dora', 'dora-phone');
	await write(dora, 'row one of after');
	await allShared(dora);
	await ana.context().setOffline(false);
	await ben.context().setOffline(false);
	await until('the club to have both', async () => (await harness.find(lost)).size === 1);
	for (const page of [ana, ben, dora]) await seesNotes(page, ['row one of after', 'row one of before']);
});

test('a log that another device bound first: never called shared until the club has it', async ({
	browser
}) => {
	const ana = await newDevice(browser, harness.url, 'ana', 'ana-phone');
	await isConnected(ana, true);
	await harness.backup('backup');
	harness.wire.holdAnswers();
	const [id] = await write(ana, 'true words');
	await until('the club to have it', async () => (await harness.find([id!])).size === 1);
	const { logs } = await harness.control<{ logs: number[] }>({ what: 'rows' });
	expect(logs).toHaveLength(1);
	// The club forgets, and somebody else comes with the same client id before this device can.
	await harness.restore('backup');
	const foreign = await bindLog(harness.ledgerUrl, club, logs[0]!, 'mallory');
	harness.wire.cut();
	await until('the device to say shared', async () => {
		const said = await sharingOf(ana, id!);
		if (said === 'shared') expect((await harness.find([id!])).size).toBe(1);
		return said === 'shared';
	});
	await write(ana, 'goes on');
	await allShared(ana);
	await seesNotes(ana, ['foreign words', 'goes on', 'true words']);
	expect((await harness.find([foreign])).size).toBe(1);
});

test('a server killed over and over: nothing called shared is ever missing', async ({ browser }) => {
	test.setTimeout(180_000);
	const ana = await newDevice(browser, harness.url, 'ana', 'ana-phone');
	const all: string[] = [];
	for (let round = 0; round < 8; round++) {
		const writing = ana.evaluate(
			(texts) => window.harness.write(texts),
			Array.from({ length: 30 }, (_, index) => `${round}.${index}`)
		);
		// Some rounds die while entries are on the way, some after: whatever the device has answered by then.
		if (round % 2 === 0) {
			await until('some to be shared', () => ana.evaluate(() => window.club.status.unshared.length > 0));
		}
		await harness.stopLedger('SIGKILL');
		all.push(...(await writing));
		const shared = await ana.evaluate(
			(ids) => ids.filter((id) => window.club.sharingOf(id) === 'shared'),
			all
		);
		await harness.startLedger();
		expect((await harness.find(shared)).size).toBe(shared.length);
	}
	await allShared(ana, 60_000);
	expect((await harness.find(all)).size).toBe(all.length);
	expect((await notes(ana)).length).toBe(all.length);
});

test('private audiences: words for a room stay in the room', async ({ browser }) => {
	const room = await harness.control<string>({ what: 'room', room: 'kitchen' });
	const ana = await newDevice(browser, harness.url, 'ana', 'ana-phone');
	await isConnected(ana, true);
	await ana.evaluate((audience) => window.harness.write(['why culled'], audience as `room:${string}`), room);
	await write(ana, '12 fewer');
	await allShared(ana);
	await seesNotes(ana, ['12 fewer']);
	const ben = await newDevice(browser, harness.url, 'ben', 'ben-phone');
	await seesNotes(ben, ['12 fewer']);
	await until('the other keeper to read it', async () => {
		const words = await ben.evaluate(
			(audience) => window.club.ask('privateEntriesOf', { audience: audience as `room:${string}` }),
			room
		);
		return words.length === 1;
	});
});
