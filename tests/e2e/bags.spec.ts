/** A bag from the label to the new room: quick at the table, one bag from two phones, differences shown. */
import { expect, test, type Locator, type Page } from '@playwright/test';
import { bagNumberOf } from '#handover/bagNumberOf.ts';
import { bagNumberText } from '#records/bagNumberText.ts';
import type { RunningServer } from '#tests/helpers/startServer.ts';
import { hasNoFindings, phoneOf, seen, startSmallClub, typeNumber } from './smallClubPages.ts';

const port = 4412;
const url = `http://localhost:${port}`;
let server: RunningServer | undefined;
test.beforeAll(async () => (server = await startSmallClub(port)));
test.afterAll(() => server?.stop());

/** Printed labels of other days: their numbers are the devices' own only by chance. */
const label = (count: number) => bagNumberOf(900_000 + count);
const shared = (page: Page) => page.getByText('everything shared');

test('with a label and a known receiver: at most four taps and the number', async ({ browser }) => {
	const { page } = await phoneOf(browser, url, 'harbour');
	let taps = 0;
	const tap = async (target: Locator) => {
		const box = await target.boundingBox();
		expect(Math.min(box?.height ?? 0, box?.width ?? 0)).toBeGreaterThanOrEqual(48);
		await target.click();
		taps++;
	};
	await tap(page.getByRole('link', { name: 'Log a bag' }));
	await typeNumber(page, label(1));
	await tap(page.getByRole('listitem').filter({ hasText: 'mill room' }));
	await tap(page.getByRole('button', { name: 'Handed over' }));
	await expect(page.getByRole('heading', { name: `Bag ${bagNumberText(label(1))}` })).toBeVisible();
	await expect(seen(page, 'handed over')).toBeVisible();
	expect(taps).toBeLessThanOrEqual(4);
	await expect(shared(page)).toBeVisible();
});

test('a slip of the thumb is told in one sentence, and what was typed stays', async ({ browser }) => {
	const { page, club } = await phoneOf(browser, url, 'harbour');
	await page.goto(`${club}/bags/new`);
	const number = label(2);
	const wrong = number.endsWith('F') ? 'H' : 'F';
	await typeNumber(page, number.slice(0, -1) + wrong);
	await expect(page.getByText('Digits and letter do not fit together.')).toBeVisible();
	await expect(page.getByLabel('Number on the label')).toHaveValue(number.slice(0, -1) + wrong);
	await typeNumber(page, number.slice(-1));
	await expect(page.getByRole('heading', { name: 'Who is it for?' })).toBeVisible();
});

test('a bag without a label gets a number of this device, without any signal', async ({ browser }) => {
	const { page, club } = await phoneOf(browser, url, 'harbour');
	await page.goto(`${club}/bags/labels`);
	await expect(page.getByText(/^\d+ numbers are kept on this device/)).toBeVisible();
	await page.goto(`${club}/bags/new`);
	await expect(page.getByRole('button', { name: 'No label' })).toBeVisible();
	await page.context().setOffline(true);
	await page.getByRole('button', { name: 'No label' }).click();
	await expect(page.getByText(/^Write \d{4,} [A-Z] on the bag\.$/)).toBeVisible();
	await page.getByRole('button', { name: 'A guest' }).click();
	await page.getByLabel('Name or place').fill('Ida');
	await page.getByRole('button', { name: 'Go on' }).click();
	await page.getByRole('button', { name: 'Handed over' }).click();
	await expect(seen(page, 'only on this device')).toBeVisible();
	await page.context().setOffline(false);
	await expect(shared(page)).toBeVisible();
	await expect(seen(page, 'only on this device')).toHaveCount(0);
});

test('two tabs of one phone never give out one number', async ({ browser }) => {
	const { page, club } = await phoneOf(browser, url, 'orchard');
	await page.goto(`${club}/bags/labels`);
	await expect(page.getByText(/^\d+ numbers are kept on this device/)).toBeVisible();
	const tabs = [page, await page.context().newPage()];
	for (const tab of tabs) {
		await tab.goto(`${club}/bags/new`);
		await expect(tab.getByRole('button', { name: 'No label' })).toBeVisible();
	}
	await Promise.all(tabs.map((tab) => tab.getByRole('button', { name: 'No label' }).click()));
	const words = await Promise.all(
		tabs.map((tab) => tab.getByText(/^Write \d{4,} [A-Z] on the bag\.$/).innerText())
	);
	expect(new Set(words).size).toBe(2);
});

test('logged on two phones without a signal it is one bag, and what differs is shown', async ({
	browser
}) => {
	const giver = await phoneOf(browser, url, 'harbour');
	const receiver = await phoneOf(browser, url, 'mill');
	const number = label(3);
	for (const phone of [giver, receiver]) {
		await phone.page.goto(`${phone.club}/bags/new`);
		await expect(phone.page.getByRole('button', { name: '1', exact: true })).toBeVisible();
		await phone.page.context().setOffline(true);
		await typeNumber(phone.page, number);
	}
	await giver.page.getByRole('listitem').filter({ hasText: 'mill room' }).click();
	await giver.page.getByRole('listitem').filter({ hasText: 'group of Weir cory' }).click();
	for (let i = 0; i < 2; i++) await giver.page.getByRole('button', { name: 'one more, males' }).click();
	await giver.page.getByRole('button', { name: '2m in the bag' }).click();
	await giver.page.getByRole('button', { name: 'Handed over' }).click();
	await receiver.page.getByRole('listitem').filter({ hasText: 'For me: mill room' }).click();
	await receiver.page.getByRole('button', { name: 'I have it' }).click();
	await receiver.page.getByRole('button', { name: 'It arrived' }).click();
	await receiver.page.getByRole('button', { name: 'one more, males' }).click();
	await receiver.page.getByRole('button', { name: '1m arrived alive' }).click();
	await expect(receiver.page.getByText('Keep new fish apart for 28 days.')).toBeVisible();
	// The receiver's word comes first.
	await receiver.page.context().setOffline(false);
	await expect(shared(receiver.page)).toBeVisible();
	await giver.page.context().setOffline(false);
	for (const phone of [giver, receiver]) {
		await expect(shared(phone.page)).toBeVisible();
		await phone.page.goto(`${phone.club}/bags/${number}`);
		await expect(phone.page.getByText('2 went in, 1 came out.')).toBeVisible();
		await expect(phone.page.getByRole('heading', { name: 'The giver' })).toBeVisible();
		await expect(phone.page.getByRole('heading', { name: 'The receiver' })).toBeVisible();
	}
	await receiver.page.getByRole('button', { name: 'We have looked at it' }).click();
	await receiver.page.getByRole('button', { name: 'Settled' }).click();
	await expect(giver.page.getByText('2 went in, 1 came out.')).toHaveCount(0);
});

test('two bags that cannot be one are parted by a person', async ({ browser }) => {
	const harbour = await phoneOf(browser, url, 'harbour');
	const orchard = await phoneOf(browser, url, 'orchard');
	const number = label(4);
	for (const phone of [harbour, orchard]) {
		await phone.page.goto(`${phone.club}/bags/new`);
		await expect(phone.page.getByRole('button', { name: '1', exact: true })).toBeVisible();
		await phone.page.context().setOffline(true);
		await typeNumber(phone.page, number);
		await phone.page.getByRole('listitem').filter({ hasText: 'mill room' }).click();
		await phone.page.getByRole('button', { name: 'Only packed so far' }).click();
		await expect(phone.page.getByRole('heading', { name: 'Who said what' })).toBeVisible();
	}
	for (const phone of [harbour, orchard]) {
		await phone.page.context().setOffline(false);
		await expect(shared(phone.page)).toBeVisible();
	}
	const question = harbour.page.getByText('Two bags with one number?').last();
	await expect(question).toBeVisible();
	await harbour.page.getByRole('button', { name: 'They are different bags' }).click();
	for (const phone of [harbour, orchard])
		await expect(phone.page.getByText('Two bags with one number?')).toHaveCount(0);
});

test('without a number, the seller’s room tells whether it is new blood, without any signal', async ({
	browser
}) => {
	const { page, club } = await phoneOf(browser, url, 'mill');
	await page.goto(`${club}/bags/fresh`);
	await expect(page.getByRole('button', { name: '1', exact: true })).toBeVisible();
	await page.context().setOffline(true);
	await page.getByRole('button', { name: 'No number: say whose fish' }).click();
	await page.getByRole('listitem').filter({ hasText: 'Weir cory' }).click();
	await page.getByRole('listitem').filter({ hasText: 'orchard room' }).click();
	await expect(page.getByRole('heading', { name: 'Weir cory from orchard room' })).toBeVisible();
	await expect(page.getByText('Nothing shared as far as records go')).toBeVisible();
	await hasNoFindings(page);
	await page.getByRole('button', { name: 'Another bag' }).click();
	await expect(page.getByRole('button', { name: '1', exact: true })).toBeVisible();
});

for (const colorScheme of ['light', 'dark'] as const) {
	test(`the pages of bags and meetings have no findings, ${colorScheme}`, async ({ browser }) => {
		const { page, club } = await phoneOf(browser, url, 'harbour', colorScheme);
		await page.goto(`${club}/bags/new`);
		await expect(page.getByRole('button', { name: '1', exact: true })).toBeVisible();
		await hasNoFindings(page);
		await typeNumber(page, label(colorScheme === 'light' ? 5 : 6));
		await expect(page.getByRole('heading', { name: 'Who is it for?' })).toBeVisible();
		await hasNoFindings(page);
		await page.getByRole('listitem').filter({ hasText: 'mill room' }).click();
		await expect(page.getByRole('button', { name: 'Handed over' })).toBeVisible();
		await hasNoFindings(page);
		await page.getByRole('button', { name: 'Handed over' }).click();
		await expect(page.getByRole('heading', { name: 'Who said what' })).toBeVisible();
		await hasNoFindings(page);
		await page.getByRole('button', { name: 'It arrived' }).click();
		await expect(page.getByRole('heading', { name: 'It arrived' })).toBeVisible();
		await hasNoFindings(page);
		for (const [path, title] of [
			['bags', 'Bags'],
			['bags/labels', 'Labels'],
			['bags/fresh', 'Is it new blood?'],
			['meetings', 'Meetings'],
			['meetings/evening', 'Club evening']
		] as const) {
			await page.goto(`${club}/${path}`);
			await expect(page.getByRole('heading', { name: title, level: 1 })).toBeVisible();
			await hasNoFindings(page);
		}
	});
}
