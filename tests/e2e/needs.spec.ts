/** What waits for a person: told at the edge of every screen, listed with what to do, gone when it is done. */
import { expect, test } from '@playwright/test';
import { bagNumberOf } from '#handover/bagNumberOf.ts';
import type { RunningServer } from '#tests/helpers/startServer.ts';
import { hasNoFindings, phoneOf, seen, startSmallClub, typeNumber } from './smallClubPages.ts';

const port = 4554;
const url = `http://localhost:${port}`;
let server: RunningServer | undefined;
test.beforeAll(async () => (server = await startSmallClub(port)));
test.afterAll(() => server?.stop());

test('a bag logged by somebody with no part in it: needs the writer, and one tap of a keeper, also offline', async ({
	browser
}) => {
	const orchard = await phoneOf(browser, url, 'orchard');
	const mill = await phoneOf(browser, url, 'mill');
	await expect(mill.page.getByText(/need(s)? you/)).toHaveCount(0);
	await mill.page.goto(`${mill.club}/needs`);
	await expect(mill.page.getByText('Nothing waits for you.')).toBeVisible();
	await hasNoFindings(mill.page);

	await orchard.page.goto(`${orchard.club}/bags/new`);
	await typeNumber(orchard.page, bagNumberOf(930_001));
	await orchard.page.getByRole('listitem').filter({ hasText: 'mill room' }).click();
	await orchard.page.getByRole('button', { name: 'From orchard room' }).click();
	await orchard.page
		.getByRole('dialog')
		.getByRole('button', { name: /harbour room/ })
		.click();
	await orchard.page.getByRole('button', { name: 'Handed over' }).click();
	await expect(orchard.page.getByRole('heading', { name: 'Who said what' })).toBeVisible();
	await orchard.page.getByRole('link', { name: '2 need you' }).click();
	await expect(
		orchard.page.getByRole('heading', { name: 'What you wrote and does not count' })
	).toBeVisible();
	await expect(orchard.page.getByText('Ask somebody who keeps the room').first()).toBeVisible();
	await hasNoFindings(orchard.page);

	await mill.page.getByRole('link', { name: '2 need you' }).click();
	await expect(mill.page.getByRole('heading', { name: 'One tap of yours' })).toBeVisible();
	await expect(mill.page.getByText('orchard keeper said so').first()).toBeVisible();
	await mill.page.getByRole('list', { name: 'One tap of yours' }).getByRole('link').first().click();
	await mill.page.context().setOffline(true);
	const tap = mill.page.getByRole('button', { name: 'So it is' });
	await tap.first().click();
	await expect(tap).toHaveCount(1);
	await tap.click();
	await expect(mill.page.getByText(/need(s)? you/)).toHaveCount(0);
	await mill.page.context().setOffline(false);
	await expect(orchard.page.getByText('Nothing waits for you.')).toBeVisible();
	await expect(orchard.page.getByRole('link', { name: /need(s)? you/ })).toHaveCount(0);
});

test('an exchange waits for an answer; the edge leads to it from any page', async ({ browser }) => {
	const mill = await phoneOf(browser, url, 'mill');
	const harbour = await phoneOf(browser, url, 'harbour');
	await mill.page.goto(`${mill.club}/exchanges/new?line=weir-cory&room=room-mill`);
	await mill.page.getByRole('button', { name: /Choose fish of .* from harbour room/ }).click();
	await mill.page.getByRole('button', { name: 'Ask the other side' }).click();
	await mill.page.waitForURL(/exchanges\/[0-9a-f-]{36}$/);
	await harbour.page.goto(`${harbour.club}/help`);
	await harbour.page.getByRole('link', { name: '1 needs you' }).click();
	await harbour.page.getByRole('link', { name: /Weir cory, harbour room to mill room/ }).click();
	await harbour.page.getByRole('button', { name: 'Answer for harbour room' }).click();
	await harbour.page.getByRole('radio', { name: 'No' }).check();
	await harbour.page.getByRole('button', { name: 'Save the answer' }).click();
	await expect(seen(harbour.page, 'declined')).toBeVisible();
	await expect(harbour.page.getByRole('link', { name: /need(s)? you/ })).toHaveCount(0);
	await mill.page.getByRole('link', { name: '1 needs you' }).click();
	await expect(mill.page.getByText('Find another way, or let it be.')).toBeVisible();
});
