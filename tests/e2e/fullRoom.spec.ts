/** Full and hard data on a phone: 200 groups, long names, names from right to left, a history of hundreds. */
import { expect, test, type Page } from '@playwright/test';
import { join } from 'node:path';
import { startServer, type RunningServer } from '#tests/helpers/startServer.ts';
import { hasNoFindings } from './smallClubPages.ts';

const port = 4396;
const baseURL = `http://localhost:${port}`;
let server: RunningServer | undefined;
let page: Page;
const club = '/c/full-club';

test.describe.configure({ mode: 'serial' });
test.beforeAll(async ({ browser }) => {
	test.setTimeout(180_000);
	server = await startServer({
		node: ['tests/e2e/fullClub.ts'],
		cwd: join(import.meta.dirname, '../..'),
		env: { PORT: String(port) },
		readyUrl: `${baseURL}/healthz`,
		timeoutMs: 150_000
	});
	const context = await browser.newContext({ baseURL, viewport: { width: 390, height: 844 } });
	page = await context.newPage();
	await page.goto('/sign-in');
	await page.getByLabel('Name you sign in with').fill('shed');
	await page.getByLabel('Password').first().fill('three unrelated words');
	await page.getByRole('button', { name: 'Sign in' }).click();
	await page.waitForURL(/\/c\/[^/]+/);
});
test.afterAll(async () => {
	await page?.context().close();
	await server?.stop();
});

const fitsWidth = () => page.evaluate(() => document.documentElement.scrollWidth <= innerWidth);

for (const path of [
	'rooms/room-shed',
	'rooms/room-dina',
	'lines',
	'lines/line-4',
	'groups/shed-0',
	'list'
] as const) {
	test(`${path}: long names and names from right to left stay within the phone`, async () => {
		await page.goto(`${club}/${path}`);
		await expect(page.locator('.page h1').filter({ visible: true }).first()).toBeVisible();
		await expect.poll(fitsWidth).toBe(true);
	});
}

test('a room with 200 groups shows a few of each line, the rest on asking, and finds a tank', async () => {
	await page.goto(`${club}/rooms/room-shed`);
	const groups = page.getByRole('list', { name: 'Groups of Weir cory', exact: true }).getByRole('listitem');
	await expect(groups).toHaveCount(6);
	await page.getByRole('button', { name: 'Show 60 of 84 more' }).click();
	await expect(groups).toHaveCount(66);
	await page.getByRole('searchbox').fill('rack 3, tank 7');
	await expect(page.getByRole('link', { name: /^(Group|Trio)/ })).toHaveCount(1);
	await hasNoFindings(page);
});

test('a long history comes in parts; what needs a look is found and settled', async () => {
	await page.goto(`${club}/groups/shed-0`);
	await page.getByRole('link', { name: 'See it' }).click();
	await page.getByRole('button', { name: 'Which one holds?' }).first().click();
	await page.getByRole('radio', { name: /4m 6f/ }).check();
	await hasNoFindings(page);
	await page.getByRole('button', { name: 'This one holds' }).click();
	await page.getByRole('button', { name: 'Counted again' }).click();
	await expect(page.getByText('It holds:')).toBeVisible();
	await expect(page.getByRole('button', { name: 'Which one holds?' })).toHaveCount(0);
	await page.getByRole('button', { name: 'Decide' }).click();
	await page.getByRole('radio', { name: 'It stands', exact: true }).check();
	await page.getByLabel('Why?').fill('Counted together on Monday.');
	await page.getByRole('dialog').getByRole('button', { name: 'Save' }).click();
	await expect(page.getByRole('button', { name: 'Decide' })).toHaveCount(0);
	await page.getByRole('button', { name: /^Needs a look/ }).click();
	await expect(page.getByRole('list', { name: 'What happened' }).locator(':scope > li')).toHaveCount(50);
	await page.getByRole('button', { name: 'Show older ones' }).click();
	await expect(page.getByRole('list', { name: 'What happened' }).locator(':scope > li')).toHaveCount(150);
});

test('printed: a check sheet without anything of the screen; lines and a line on one page each', async () => {
	await page.emulateMedia({ media: 'print' });
	await page.goto(`${club}/rooms/room-dina`);
	await expect(page.getByText('Tick what is so.')).toBeVisible();
	await expect(page.getByRole('button', { name: 'Yes', exact: true }).filter({ visible: true })).toHaveCount(
		0
	);
	await expect(page.getByRole('navigation').filter({ visible: true })).toHaveCount(0);
	await page.goto(`${club}/lines/line-0`);
	await expect(page.getByText('Conservation line: do not cross')).toBeVisible();
	// A4 less 14 mm on each side, at 96 pixels an inch: 688 by 1017.
	await page.setViewportSize({ width: 688, height: 1017 });
	await page.goto(`${club}/lines`);
	await expect(page.getByRole('columnheader', { name: 'How it stands' })).toBeVisible();
	expect(await page.evaluate(() => document.documentElement.scrollHeight)).toBeLessThanOrEqual(1017);
});
