/** An exchange from "this room needs new blood" to fish that arrived; and plan B when one says no. */
import { expect, test, type Page } from '@playwright/test';
import { bagNumberOf } from '#handover/bagNumberOf.ts';
import type { RunningServer } from '#tests/helpers/startServer.ts';
import { hasNoFindings, phoneOf, seen, startSmallClub, typeNumber } from './smallClubPages.ts';

const port = 4414;
const url = `http://localhost:${port}`;
let server: RunningServer | undefined;
test.beforeAll(async () => (server = await startSmallClub(port)));
test.afterAll(() => server?.stop());
const shared = (page: Page) => page.getByText('everything shared');

/** The mill asks the first room of the list for fish. */
async function propose(page: Page, club: string): Promise<string> {
	await page.goto(`${club}/exchanges`);
	await page.getByRole('link', { name: 'Propose an exchange' }).click();
	await page.getByRole('button', { name: 'Weir cory' }).click();
	await page.getByRole('button', { name: 'mill room' }).click();
	await expect(page.getByRole('heading', { name: 'Least related first' })).toBeVisible();
	await hasNoFindings(page);
	await page.getByRole('button', { name: /Choose fish of .* from harbour room/ }).click();
	await expect(page.getByText('This counts as the yes of your room')).toBeVisible();
	await page.getByRole('button', { name: 'Ask the other side' }).click();
	await page.waitForURL(/exchanges\/[0-9a-f-]{36}$/);
	await expect(seen(page, 'asked')).toBeVisible();
	await expect(shared(page)).toBeVisible();
	return page.url().split('/').at(-1) ?? '';
}

test('proposed, both say yes, bagged, arrived: each step moved by who may', async ({ browser }) => {
	const mill = await phoneOf(browser, url, 'mill');
	const harbour = await phoneOf(browser, url, 'harbour');
	const exchange = await propose(mill.page, mill.club);
	await hasNoFindings(mill.page);
	await expect(mill.page.getByText('not related as far as we know')).toBeVisible();

	await harbour.page.goto(`${harbour.club}/exchanges`);
	await expect(harbour.page.getByRole('heading', { name: 'Wait for you' })).toBeVisible();
	await hasNoFindings(harbour.page);
	await harbour.page.getByRole('link', { name: 'Weir cory' }).click();
	await harbour.page.getByRole('button', { name: 'Answer for harbour room' }).click();
	await harbour.page.getByRole('radio', { name: 'Yes' }).check();
	await harbour.page.getByRole('button', { name: 'Save the answer' }).click();
	await expect(seen(harbour.page, 'agreed')).toBeVisible();
	await expect(seen(mill.page, 'agreed')).toBeVisible();

	await harbour.page.getByRole('link', { name: 'Log the bag' }).click();
	await typeNumber(harbour.page, bagNumberOf(910_001));
	await expect(harbour.page.getByText('The fish stand as agreed.')).toBeVisible();
	await harbour.page.getByRole('button', { name: 'Handed over' }).click();
	await expect(harbour.page.getByRole('heading', { name: 'Who said what' })).toBeVisible();

	await expect(seen(mill.page, 'handed over')).toBeVisible();
	await mill.page.getByRole('listitem').getByRole('link', { name: /^91/ }).click();
	await mill.page.getByRole('button', { name: 'It arrived' }).click();
	await mill.page.getByRole('button', { name: /arrived alive/ }).click();
	await expect(mill.page.getByText('Keep new fish apart for 28 days.')).toBeVisible();
	await harbour.page.goto(`${harbour.club}/exchanges/${exchange}`);
	await expect(seen(harbour.page, 'arrived')).toBeVisible();
});

test('how to reach the other side: written by oneself, shown from both yeses on, to both sides only, with a signal', async ({
	browser
}) => {
	const mill = await phoneOf(browser, url, 'mill');
	const harbour = await phoneOf(browser, url, 'harbour');
	const orchard = await phoneOf(browser, url, 'orchard');
	await harbour.page.goto('/account');
	await harbour.page.getByLabel('E-mail').fill('harbour@example.org');
	await harbour.page.getByLabel('Phone').fill('01632 960 123');
	await harbour.page.getByRole('button', { name: 'Save', exact: true }).click();
	await expect(harbour.page.getByText('Your contact details are kept.')).toBeVisible();

	const exchange = await propose(mill.page, mill.club);
	const contacts = ({ page }: typeof mill, of = exchange) =>
		page.request.get(`${url}/api/clubs/small-club/contacts/${of}`);
	expect((await contacts(mill)).status()).toBe(403);
	await expect(mill.page.getByRole('heading', { name: 'How to reach them' })).toHaveCount(0);

	await harbour.page.goto(`${harbour.club}/exchanges/${exchange}`);
	await harbour.page.getByRole('button', { name: 'Answer for harbour room' }).click();
	await harbour.page.getByRole('radio', { name: 'Yes' }).check();
	await harbour.page.getByRole('button', { name: 'Save the answer' }).click();
	await expect(mill.page.getByRole('link', { name: 'harbour@example.org' })).toBeVisible();
	await expect(mill.page.getByRole('link', { name: '01632 960 123' })).toHaveAttribute(
		'href',
		'tel:01632960123'
	);
	await hasNoFindings(mill.page);
	await expect(harbour.page.getByText('Has written down no phone or e-mail.')).toBeVisible();

	expect(await (await contacts(mill)).json()).toMatchObject({
		contacts: [{ member: 'harbour', email: 'harbour@example.org', phone: '01632 960 123', street: '' }]
	});
	expect((await contacts(harbour)).status()).toBe(200);
	// A member with no part in it; the same exchange for somebody who is signed out; one that never was.
	expect((await contacts(orchard)).status()).toBe(403);
	expect((await (await browser.newContext()).request.get((await contacts(mill)).url())).status()).toBe(401);
	expect((await contacts(mill, 'no-such-exchange')).status()).toBe(403);

	await mill.page.context().setOffline(true);
	await expect(mill.page.getByText('How to reach them is shown where there is a signal.')).toBeVisible();
	await expect(mill.page.getByText('harbour@example.org')).toHaveCount(0);
	await mill.page.reload();
	await expect(mill.page.getByRole('heading', { name: 'How to reach them' })).toBeVisible();
	await expect(mill.page.getByText('harbour@example.org')).toHaveCount(0);
	await mill.page.context().setOffline(false);

	// Called off: nothing is left to arrange.
	await harbour.page.getByRole('button', { name: 'Call it off' }).click();
	await harbour.page.getByRole('dialog').getByRole('button', { name: 'Call it off' }).click();
	await expect(seen(harbour.page, 'called off')).toBeVisible();
	await expect(shared(harbour.page)).toBeVisible();
	expect((await contacts(mill)).status()).toBe(403);
});

test('one says no with a reason: plan B offers the others', async ({ browser }) => {
	const mill = await phoneOf(browser, url, 'mill');
	const harbour = await phoneOf(browser, url, 'harbour');
	const exchange = await propose(mill.page, mill.club);
	await harbour.page.goto(`${harbour.club}/exchanges/${exchange}`);
	await harbour.page.getByRole('button', { name: 'Answer for harbour room' }).click();
	await harbour.page.getByRole('radio', { name: 'No' }).check();
	await harbour.page.getByLabel('Why?').fill('They are spawning now');
	await harbour.page.getByRole('button', { name: 'Save the answer' }).click();
	await expect(mill.page.getByText('No: They are spawning now')).toBeVisible();
	await mill.page.getByRole('link', { name: 'Find another way' }).click();
	await expect(mill.page.getByRole('heading', { name: 'Another way' })).toBeVisible();
	await expect(mill.page.getByRole('button', { name: /from orchard room/ })).toBeVisible();
	await expect(mill.page.getByRole('button', { name: /from harbour room/ })).toHaveCount(0);
});
