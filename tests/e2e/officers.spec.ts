/** What only officers may do, and what everyone else sees of it. */
import { expect, test } from '@playwright/test';
import { bagNumberOf } from '#handover/bagNumberOf.ts';
import type { RunningServer } from '#tests/helpers/startServer.ts';
import { hasNoFindings, phoneOf, seen, startSmallClub, typeNumber } from './smallClubPages.ts';

const port = 4550;
const url = `http://localhost:${port}`;
let server: RunningServer | undefined;
test.beforeAll(async () => (server = await startSmallClub(port)));
test.afterAll(() => server?.stop());

test('an officer names the runner of a meeting, whose words then count for every room, and takes it back', async ({
	browser
}) => {
	const officer = await phoneOf(browser, url, 'harbour');
	const orchard = await phoneOf(browser, url, 'orchard');
	/** Orchard has no part in a bag from the harbour to the mill. */
	const logBag = async (count: number) => {
		await orchard.page.goto(`${orchard.club}/bags/new`);
		await typeNumber(orchard.page, bagNumberOf(920_000 + count));
		await orchard.page.getByRole('listitem').filter({ hasText: 'mill room' }).click();
		await orchard.page.getByRole('button', { name: 'From orchard room' }).click();
		await orchard.page
			.getByRole('dialog')
			.getByRole('button', { name: /harbour room/ })
			.click();
		await orchard.page.getByRole('button', { name: 'Handed over' }).click();
		await expect(orchard.page.getByRole('heading', { name: 'Who said what' })).toBeVisible();
	};
	await logBag(1);
	await expect(seen(orchard.page, 'told by')).toBeVisible();

	await orchard.page.goto(`${orchard.club}/meetings/evening`);
	await expect(orchard.page.getByRole('heading', { name: 'Club evening' })).toBeVisible();
	await expect(orchard.page.getByRole('button', { name: /runner/ })).toHaveCount(0);

	const { page } = officer;
	await page.goto(`${officer.club}/meetings/evening`);
	await page.context().setOffline(true);
	await page.getByRole('button', { name: 'Name a runner' }).click();
	await expect(page.getByText('No signal: a runner can be named when there is one.')).toBeVisible();
	await page.context().setOffline(false);
	await page.getByRole('button', { name: 'orchard keeper' }).click();
	await expect(page.getByText('orchard keeper runs the bags now.')).toBeVisible();
	await hasNoFindings(page);
	await expect(page.getByRole('button', { name: 'Take it back from orchard keeper' })).toBeVisible();

	await orchard.page.goto(`${orchard.club}/meetings/evening`);
	await expect(seen(orchard.page, 'orchard keeper')).toBeVisible();
	await logBag(2);
	await expect(seen(orchard.page, 'shared with the club')).toBeVisible();
	await expect(seen(orchard.page, 'told by')).toHaveCount(0);

	await page.getByRole('button', { name: 'Take it back from orchard keeper' }).click();
	await expect(page.getByText('orchard keeper no longer runs the bags.')).toBeVisible();
	await expect(page.getByText('Nobody yet.')).toBeVisible();
});

test('an officer erases a statement for good, and it leaves the other phones; a keeper cannot', async ({
	browser
}) => {
	const officer = await phoneOf(browser, url, 'harbour');
	const mill = await phoneOf(browser, url, 'mill');
	const history = (club: string) => `${club}/groups/mill-shop/history`;
	await mill.page.goto(`${mill.club}/groups/mill-shop`);
	await mill.page.getByRole('button', { name: 'Name and tank' }).click();
	await mill.page.getByRole('textbox', { name: 'Name' }).fill('Those of Anna Weber, 4 Mill Lane');
	await mill.page.getByRole('dialog').getByRole('button', { name: 'Save' }).click();
	const words = (page: typeof mill.page) => page.getByText(/Anna Weber/).filter({ visible: true });
	await mill.page.goto(history(mill.club));
	await expect(words(mill.page).first()).toBeVisible();
	await expect(mill.page.getByRole('button', { name: 'Erase' })).toHaveCount(0);

	const { page } = officer;
	await page.goto(history(officer.club));
	await expect(words(page).first()).toBeVisible();
	const said = page.getByRole('listitem').filter({ hasText: 'Anna Weber' });
	await page.context().setOffline(true);
	await said.getByRole('button', { name: 'Erase' }).click();
	await expect(page.getByText('No signal: it can be erased when there is one.')).toBeVisible();
	await page.context().setOffline(false);
	const erase = page.getByRole('button', { name: 'Erase it for good' });
	await expect(erase).toBeDisabled();
	await hasNoFindings(page);
	await page.getByLabel('I am sure that it must go').check();
	await erase.click();
	await expect(page.getByRole('dialog')).toBeHidden();
	for (const each of [page, mill.page]) await expect(words(each)).toHaveCount(0);
	await mill.page.reload();
	await expect(mill.page.getByRole('heading', { name: /history/ })).toBeVisible();
	await expect(words(mill.page)).toHaveCount(0);
});
