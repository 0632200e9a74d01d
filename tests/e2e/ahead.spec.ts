/** A line looked at ahead and its ring: on a phone and at a desk, by day and night, stopped, without a signal, printed. */
import { expect, test, type Page } from '@playwright/test';
import { hasNoFindings, phoneOf, startSmallClub } from './smallClubPages.ts';
import type { RunningServer } from '#tests/helpers/startServer.ts';

const port = 4472;
const line = '/lines/weir-cory';
let server: RunningServer | undefined;
let page: Page;
let club = '';

test.describe.configure({ mode: 'serial' });
test.beforeAll(async ({ browser }) => {
	server = await startSmallClub(port);
	({ page, club } = await phoneOf(browser, `http://localhost:${port}`, 'harbour'));
});
test.afterAll(async () => {
	await page?.context().close();
	await server?.stop();
});

const heading = (name: string) => page.getByRole('heading', { level: 1, name, exact: true });
const fitsWidth = () => page.evaluate(() => document.documentElement.scrollWidth <= innerWidth);
const ended = () => expect(page.getByRole('progressbar')).toHaveCount(0, { timeout: 60_000 });

test('the line leads to its look ahead: words, a table, curves, the chance of loss with where it comes from', async () => {
	await page.goto(`${club}${line}`);
	await page.getByRole('link', { name: 'Looking ahead' }).filter({ visible: true }).click();
	await expect(heading('Looking ahead')).toBeVisible();
	await expect(page.getByText(/with a plan, by\s+0\.\d\d/)).toBeVisible();
	await ended();
	const ways = page.getByRole('table', { name: /^After 10 generations/ });
	await expect(ways.getByRole('row')).toHaveCount(9);
	await expect(page.getByRole('img', { name: /^Inbreeding of the breeders/ })).toBeVisible();
	await expect(page.getByText(/The chance that nobody has it in ten years is/)).toBeVisible();
	await expect(page.getByText(/watched rooms for|too young to learn from/)).toBeVisible();
	await expect.poll(fitsWidth).toBe(true);
	await hasNoFindings(page);
});

test('further ahead it is worked out anew, and can be stopped and started again', async () => {
	await page.getByLabel('20 generations').check();
	await page.getByRole('button', { name: 'Stop' }).click();
	await expect(page.getByText(/^Stopped/)).toBeVisible();
	await page.getByRole('button', { name: 'Start again' }).click();
	await expect(page.getByRole('table', { name: /^After 20 generations/ })).toBeVisible();
	await ended();
});

test('at a desk by night it fits and can be read', async () => {
	await page.setViewportSize({ width: 1440, height: 900 });
	await page.emulateMedia({ colorScheme: 'dark' });
	await hasNoFindings(page);
	await expect.poll(fitsWidth).toBe(true);
	await page.emulateMedia({ colorScheme: 'light' });
	await page.setViewportSize({ width: 390, height: 844 });
});

test('the ring: every room gives to the next, beside what other ways bring', async () => {
	await page.getByRole('link', { name: 'The ring', exact: true }).filter({ visible: true }).click();
	await expect(heading('The ring')).toBeVisible();
	const list = page.getByRole('table', { name: 'Who gives to whom, in every round' });
	await expect(list.getByRole('row')).toHaveCount(4);
	await expect(page.getByRole('img', { name: /3 rooms, each gives to the next/ })).toBeVisible();
	await ended();
	await expect(page.getByRole('table', { name: /^After 10 generations/ })).toBeVisible();
	await expect.poll(fitsWidth).toBe(true);
	await hasNoFindings(page);
});

test('printed, the ring is one page with rounds to tick off', async () => {
	await page.emulateMedia({ media: 'print' });
	await expect(page.getByRole('columnheader', { name: /^20\d\d$/ })).toHaveCount(5);
	const pdf = await page.pdf({ preferCSSPageSize: true });
	expect(pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)).toHaveLength(1);
	await page.emulateMedia({ media: 'screen' });
});

test('without a signal both still work', async () => {
	await page.context().setOffline(true);
	await page.getByRole('link', { name: 'Looking ahead' }).filter({ visible: true }).click();
	await expect(page.getByText(/with a plan, by/)).toBeVisible({ timeout: 60_000 });
	await page.context().setOffline(false);
});

test('a line that is not there says so', async () => {
	for (const part of ['ahead', 'ring']) {
		await page.goto(`${club}/lines/none/${part}`);
		await expect(page.getByText('This device has not heard of this line yet.')).toBeVisible();
	}
});
