import { expect, test } from '@playwright/test';
import { until } from '#tests/helpers/until.ts';
import {
	allShared,
	closeDevices,
	isConnected,
	newDevice,
	notes,
	openDevice,
	seesNotes,
	sharingOf,
	SyncHarness,
	unshared,
	write
} from '#tests/sync/harness/syncHarness.ts';

const harness = new SyncHarness(4330);

test.beforeAll(() => harness.start());
test.beforeEach(() => harness.newClub());
test.afterEach(closeDevices);
test.afterAll(() => harness.stop());

test('what one device writes is shared and seen by another', async ({ browser }) => {
	const ana = await newDevice(browser, harness.url, 'ana', 'ana-phone');
	const ben = await newDevice(browser, harness.url, 'ben', 'ben-phone');
	const ids = await write(ana, 'nine fry');
	await allShared(ana);
	await seesNotes(ben, ['nine fry']);
	expect(await sharingOf(ana, ids[0]!)).toBe('shared');
	expect([...(await harness.find(ids)).keys()]).toEqual(ids);
	expect(await notes(ana)).toEqual(['nine fry']);
});

test('written with no server: only on this device, through reloads, then shared', async ({ browser }) => {
	const ana = await newDevice(browser, harness.url, 'ana', 'ana-phone');
	const before = await write(ana, 'before');
	await allShared(ana);
	await harness.stopLedger();
	await isConnected(ana, false);
	const ids = await write(ana, 'one', 'two');
	expect(await sharingOf(ana, ids[0]!)).toBe('device');
	await openDevice(ana, harness.url, 'ana', 'ana-phone');
	await seesNotes(ana, ['before', 'one', 'two']);
	expect((await unshared(ana)).map((note) => note.id)).toEqual(ids);
	expect(await sharingOf(ana, before[0]!)).toBe('shared');
	await harness.startLedger();
	await allShared(ana);
	expect((await harness.find(ids)).size).toBe(2);
});

test('with the browser offline the socket rests, and online it shares', async ({ browser }) => {
	const ana = await newDevice(browser, harness.url, 'ana', 'ana-phone');
	await isConnected(ana, true);
	await ana.context().setOffline(true);
	await isConnected(ana, false);
	const ids = await write(ana, 'at the show');
	expect(await sharingOf(ana, ids[0]!)).toBe('device');
	await ana.context().setOffline(false);
	await allShared(ana);
	expect((await harness.find(ids)).size).toBe(1);
});

test('an answer that never came: the next connect tells, and nothing is written twice', async ({
	browser
}) => {
	const ana = await newDevice(browser, harness.url, 'ana', 'ana-phone');
	await isConnected(ana, true);
	harness.wire.holdAnswers();
	const ids = await write(ana, 'said into the dark');
	await until('the club to have it', async () => (await harness.find(ids)).size === 1);
	expect(await sharingOf(ana, ids[0]!)).toBe('device');
	expect(await ana.evaluate((id) => window.club.undo(id), ids[0]!)).toBe('already-sending');
	harness.wire.cut();
	await allShared(ana);
	expect((await harness.control<{ rows: number }>({ what: 'rows' })).rows).toBe(1);
	await seesNotes(ana, ['said into the dark']);
});

test('two pages add one entry and reconnect twice: all accepted, one entry everywhere', async ({
	browser
}) => {
	await harness.stopLedger();
	const first = await newDevice(browser, harness.url, 'ana', 'ana-phone');
	const second = await newDevice(browser, harness.url, 'ana', 'ana-old');
	const ids = await write(first, 'once');
	const file = await first.evaluate(() => window.club.exportUnshared());
	expect(await second.evaluate((content) => window.club.importFile(content), file)).toEqual({
		added: 1,
		aside: 0,
		unreadable: 0
	});
	await harness.startLedger();
	const reader = await newDevice(browser, harness.url, 'ben', 'ben-phone');
	for (let round = 0; round < 3; round++) {
		for (const page of [first, second]) await allShared(page);
		for (const page of [first, second, reader]) await seesNotes(page, ['once']);
		harness.wire.cut();
		for (const page of [first, second, reader]) await isConnected(page, true);
	}
	expect((await harness.find(ids)).size).toBe(1);
	// Both still may write.
	await write(first, 'first goes on');
	await write(second, 'second goes on');
	for (const page of [first, second]) await allShared(page);
	await seesNotes(reader, ['first goes on', 'once', 'second goes on']);
});

test('a saved file on a second phone, then the first phone returns', async ({ browser }) => {
	await harness.stopLedger();
	const first = await newDevice(browser, harness.url, 'ana', 'ana-phone');
	await write(first, 'a', 'b', 'c');
	const file = await first.evaluate(() => window.club.exportUnshared());
	await first.context().setOffline(true);
	await harness.startLedger();
	const second = await newDevice(browser, harness.url, 'ana', 'ana-old');
	await second.evaluate((content) => window.club.importFile(content), file);
	await second.evaluate((content) => window.club.importFile(content), file);
	await allShared(second);
	await first.context().setOffline(false);
	await allShared(first);
	expect((await harness.control<{ rows: number }>({ what: 'rows' })).rows).toBe(3);
	for (const page of [first, second]) await seesNotes(page, ['a', 'b', 'c']);
});

test('one writing is one: shared whole, taken back whole', async ({ browser }) => {
	const ana = await newDevice(browser, harness.url, 'ana', 'ana-phone');
	await isConnected(ana, true);
	const shared = await ana.evaluate(() => window.harness.writeTogether(['bag', 'count', 'note']));
	await allShared(ana);
	expect((await harness.find(shared)).size).toBe(3);
	expect(await ana.evaluate((id) => window.club.undo(id), shared[0]!)).toBe('not-here');
	await harness.stopLedger();
	await isConnected(ana, false);
	const kept = await ana.evaluate(() => window.harness.writeTogether(['one', 'two']));
	await seesNotes(ana, ['bag', 'count', 'note', 'one', 'two']);
	expect(await ana.evaluate((id) => window.club.undo(id), kept[1]!)).toEqual(kept);
	await seesNotes(ana, ['bag', 'count', 'note']);
	await harness.startLedger();
	await allShared(ana);
	expect((await harness.find(kept)).size).toBe(0);
});

test('undo against sending: taken back and never shared, or shared and never taken back', async ({
	browser
}) => {
	const ana = await newDevice(browser, harness.url, 'ana', 'ana-phone');
	await isConnected(ana, true);
	for (let round = 0; round < 20; round++) {
		const { id, undone } = await ana.evaluate(async () => {
			const [written] = await window.harness.write(['maybe']);
			return { id: written!, undone: await window.club.undo(written!) };
		});
		await allShared(ana);
		expect((await harness.find([id])).size, JSON.stringify(undone)).toBe(Array.isArray(undone) ? 0 : 1);
	}
});

test('signed out: what is written is kept, and shared after signing in again', async ({ browser }) => {
	const ana = await newDevice(browser, harness.url, 'ana', 'ana-phone');
	await isConnected(ana, true);
	await ana.evaluate(() => window.harness.signOutOfServer());
	harness.wire.cut();
	await until('the page to ask for sign-in', () => ana.evaluate(() => window.club.status.appNeedsSignIn));
	const ids = await write(ana, 'kept');
	expect(await sharingOf(ana, ids[0]!)).toBe('device');
	expect(await ana.evaluate(() => window.club.status.problem?.code)).toBe('signed-out');
	await ana.evaluate(() => {
		window.harness.signIn('ana', 'ana-phone');
		window.club.retry();
	});
	await allShared(ana);
	expect(await ana.evaluate(() => window.club.status.problem)).toBeNull();
	expect((await harness.find(ids)).size).toBe(1);
});

test('an entry that the server refuses needs the person, and those after it are shared', async ({
	browser
}) => {
	await harness.stopLedger();
	const first = await newDevice(browser, harness.url, 'ana', 'ana-phone');
	const [id] = await write(first, 'true words');
	const file = await first.evaluate(() => window.club.exportUnshared());
	const forged = file.replace('true words', 'other words');
	await harness.startLedger();
	await allShared(first);
	await harness.control({ what: 'close-volume' });
	const second = await newDevice(browser, harness.url, 'ana', 'ana-old');
	await isConnected(second, true);
	await second.evaluate(async (content) => {
		await Promise.all([
			window.harness.write(['before']),
			window.club.importFile(content),
			window.harness.write(['after', 'after that'])
		]);
	}, forged);
	await until('the forged text to be refused', async () => {
		const left = await unshared(second);
		return left.length === 1 && left[0]!.state === 'refused' && left[0]!.reason === 'other-text';
	});
	expect(await sharingOf(second, id!)).toBe('needs-you');
	for (const page of [first, second]) await seesNotes(page, ['after', 'after that', 'before', 'true words']);
	// The person has looked and lets it go.
	expect(await second.evaluate((asked) => window.club.undo(asked), id!)).toEqual([id]);
	await allShared(second);
	await openDevice(second, harness.url, 'ana', 'ana-old');
	await seesNotes(second, ['after', 'after that', 'before', 'true words']);
});

test('a changed file under an id that the club knows is not called shared', async ({ browser }) => {
	await harness.stopLedger();
	const first = await newDevice(browser, harness.url, 'ana', 'ana-phone');
	const [id] = await write(first, 'true words');
	const file = await first.evaluate(() => window.club.exportUnshared());
	await harness.startLedger();
	await allShared(first);
	await harness.stopLedger();
	const second = await newDevice(browser, harness.url, 'ana', 'ana-old');
	await second.evaluate((content) => window.club.importFile(content), file.replace('true', 'other'));
	await harness.startLedger();
	await isConnected(second, true);
	await until(
		'the changed text to need the person',
		async () => (await sharingOf(second, id!)) === 'needs-you'
	);
	await seesNotes(second, ['true words']);
});
