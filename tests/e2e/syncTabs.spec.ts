import { expect, test, type BrowserContext, type Page } from '@playwright/test';
import { until } from '#tests/helpers/until.ts';
import {
	allShared,
	isConnected,
	openDevice,
	seesNotes,
	sharingOf,
	SyncHarness,
	write
} from '#tests/sync/harness/syncHarness.ts';

const harness = new SyncHarness(4338);

test.beforeAll(() => harness.start());
test.beforeEach(() => harness.newClub());
test.afterAll(() => harness.stop());

async function tab(context: BrowserContext, member = 'ana'): Promise<Page> {
	const page = await context.newPage();
	await openDevice(page, harness.url, member, `${member}-phone`);
	return page;
}

const leads = (page: Page) => page.evaluate(() => window.club.status.leader);

test('tab B writes while tab A holds the socket: shared, and both see it', async ({ context }) => {
	const a = await tab(context);
	const b = await tab(context);
	await isConnected(a, true);
	await isConnected(b, true);
	expect([await leads(a), await leads(b)]).toEqual([true, false]);
	const ids = await write(b, 'from the second tab');
	await allShared(b);
	expect((await harness.find(ids)).size).toBe(1);
	expect(await sharingOf(a, ids[0]!)).toBe('shared');
	for (const page of [a, b]) await seesNotes(page, ['from the second tab']);
	await write(a, 'from the first tab');
	for (const page of [a, b]) await seesNotes(page, ['from the first tab', 'from the second tab']);
});

test('the tab with the socket closes: the other takes over and shares what waits', async ({ context }) => {
	const a = await tab(context);
	const b = await tab(context);
	await write(a, 'one');
	await allShared(b);
	await harness.stopLedger();
	const ids = await write(b, 'two');
	await a.close();
	await until('the second tab to lead', () => leads(b));
	await harness.startLedger();
	await allShared(b);
	expect((await harness.find(ids)).size).toBe(1);
	const c = await tab(context);
	expect(await leads(c)).toBe(false);
	for (const page of [b, c]) await seesNotes(page, ['one', 'two']);
});

test('undo in one tab of what another wrote', async ({ context }) => {
	const a = await tab(context);
	await isConnected(a, true);
	await harness.stopLedger();
	await isConnected(a, false);
	const b = await tab(context);
	const [id] = await write(a, 'a slip');
	await seesNotes(b, ['a slip']);
	expect(await sharingOf(b, id!)).toBe('device');
	expect(await b.evaluate((asked) => window.club.undo(asked), id!)).toEqual([id]);
	await seesNotes(a, []);
	await harness.startLedger();
	await allShared(a);
	expect((await harness.find([id!])).size).toBe(0);
});

test('a volume is closed: the tab without the socket follows', async ({ context }) => {
	const a = await tab(context);
	const b = await tab(context);
	await write(b, 'before');
	await allShared(b);
	await harness.control({ what: 'close-volume' });
	await write(b, 'after');
	await allShared(b);
	for (const page of [a, b]) await seesNotes(page, ['after', 'before']);
});

test('signing out in one tab closes the other, and nothing is left behind', async ({ context }) => {
	const a = await tab(context);
	const b = await tab(context);
	await write(a, 'shared');
	await allShared(a);
	await harness.stopLedger();
	await write(b, 'not shared');
	expect(await a.evaluate(() => window.club.wipe())).toEqual({ gone: false, unshared: 1 });
	await b.evaluate(() => {
		window.club.watchWiped(() => document.body.setAttribute('data-wiped', 'yes'));
	});
	expect(await a.evaluate(() => window.club.wipe({ evenUnshared: true }))).toEqual({
		gone: true,
		unshared: 1
	});
	await expect(b.locator('body')).toHaveAttribute('data-wiped', 'yes');
	const left = await a.evaluate(async () => ({
		databases: (await indexedDB.databases()).map(({ name }) => name).filter((name) => name?.includes('pond')),
		marks: Object.keys(localStorage)
	}));
	expect(left).toEqual({ databases: [], marks: [] });
});

test('two people on one tablet: each has a store of their own', async ({ context }) => {
	await harness.stopLedger();
	const ana = await tab(context, 'ana');
	await write(ana, 'ana’s');
	const ben = await tab(context, 'ben');
	await write(ben, 'ben’s');
	await seesNotes(ana, ['ana’s']);
	await seesNotes(ben, ['ben’s']);
	expect([await leads(ana), await leads(ben)]).toEqual([true, true]);
	expect(await ben.evaluate(() => window.club.wipe({ evenUnshared: true }))).toEqual({
		gone: true,
		unshared: 1
	});
	await openDevice(ana, harness.url, 'ana', 'ana-phone');
	await seesNotes(ana, ['ana’s']);
});
