import { expect, test } from '@playwright/test';
import { allShared, notes, openDevice, seesNotes, SyncHarness, write } from '#tests/sync/harness/syncHarness.ts';

const harness = new SyncHarness({ pages: 4330, ledger: 4331 });

test.beforeAll(() => harness.start());
test.beforeEach(() => harness.newClub());
test.afterAll(() => harness.stop());

test('what one device writes is shared and seen by another', async ({ browser }) => {
	const ana = await (await browser.newContext()).newPage();
	const ben = await (await browser.newContext()).newPage();
	await openDevice(ana, harness.url, 'ana', 'ana-phone');
	await openDevice(ben, harness.url, 'ben', 'ben-phone');
	const ids = await write(ana, 'nine fry');
	await allShared(ana);
	await seesNotes(ben, ['nine fry']);
	expect(await ana.evaluate((id) => window.club.sharingOf(id), ids[0]!)).toBe('shared');
	expect([...(await harness.find(ids)).keys()]).toEqual(ids);
	expect(await notes(ana)).toEqual(['nine fry']);
});
