/** What is only on this device: seen, saved to a file, kept over a sign-out, loaded again, brought by an officer. */
import { expect, test, type Page } from '@playwright/test';
import { readFileSync } from 'node:fs';
import { HttpGate } from '#tests/helpers/httpGate.ts';
import type { RunningServer } from '#tests/helpers/startServer.ts';
import { hasNoFindings, phoneOf, seen, startSmallClub } from './smallClubPages.ts';

const port = 4552;
const url = `http://localhost:${port}`;
let server: RunningServer | undefined;
/** Lets pages through, and only while it is open what the record is shared by. */
const gate = new HttpGate(port);
const gateUrl = 'http://localhost:4553';
test.beforeAll(async () => {
	server = await startSmallClub(port);
	await gate.listen(4553);
});
test.beforeEach(() => gate.openSockets());
test.afterAll(async () => {
	await gate.close();
	await server?.stop();
});

/** Says yes and then no to the meeting where nothing is shared: two entries. */
async function writeTwo({ page, club }: { page: Page; club: string }): Promise<void> {
	await page.goto(`${club}/meetings/evening`);
	await expect(page.getByRole('button', { name: 'I am coming' })).toBeVisible();
	gate.shutSockets();
	await page.getByRole('button', { name: 'I am coming' }).click();
	await page.getByRole('button', { name: 'I cannot come after all' }).click();
	await expect(page.getByText(/^2 not shared yet/)).toBeVisible();
}

const fileOf = (content: string) => ({
	name: 'saved.json',
	mimeType: 'application/json',
	buffer: Buffer.from(content)
});

/** What stands in the file that the press saves. */
async function saved(page: Page, button: string | RegExp): Promise<string> {
	const [download] = await Promise.all([
		page.waitForEvent('download'),
		page.getByRole('button', { name: button }).click()
	]);
	expect(download.suggestedFilename()).toMatch(/^kithline-not-shared-small-club-\d{4}-\d\d-\d\d\.json$/);
	return readFileSync(await download.path(), 'utf8');
}

test('saved to a file, signed out, loaded again on the same browser: nothing is lost or doubled', async ({
	browser
}) => {
	const mill = await phoneOf(browser, gateUrl, 'mill');
	const { page, club } = mill;
	await writeTwo(mill);
	await page.getByRole('link', { name: /2 not shared yet/ }).click();
	await expect(page.getByRole('heading', { name: 'Not yet shared' })).toBeVisible();
	const list = page.getByRole('list', { name: 'Only on this device' });
	await expect(list.getByRole('listitem')).toHaveCount(2);
	await expect(list.getByText(/mill room does not come/i).first()).toBeVisible();
	await hasNoFindings(page);
	const file = await saved(page, 'Save to a file');
	expect(JSON.parse(file)).toMatchObject({ club: 'small-club', member: 'mill' });
	await expect(page.getByText(/^Saved as kithline-not-shared/)).toBeVisible();

	await page.goto('/sign-out');
	await page.getByRole('button', { name: 'Sign out', exact: true }).click();
	await expect(page.getByText('2 entries on this device are not shared yet.')).toBeVisible();
	await hasNoFindings(page);
	const again = await saved(page, 'Save the 2 of Small Club to a file');
	const texts = (content: string) => (JSON.parse(content) as { entries: { text: string }[] }).entries;
	expect(texts(again)).toEqual(texts(file));
	await page.getByRole('button', { name: 'Sign out; the file has them' }).click();
	await page.waitForURL((at) => at.pathname === '/');
	expect(
		await page.evaluate(async () =>
			(await indexedDB.databases()).filter(({ name }) => name?.includes('mill'))
		)
	).toEqual([]);

	await page.goto('/sign-in');
	await page.getByLabel('Name you sign in with').fill('mill');
	await page.getByLabel('Password').first().fill('three unrelated words');
	await page.getByRole('button', { name: 'Sign in' }).click();
	await page.waitForURL((at) => at.pathname.startsWith('/c/'));
	await page.goto(`${club}/more`);
	await page.getByRole('link', { name: 'Not yet shared' }).click();
	await page.getByLabel('The file').setInputFiles(fileOf('{"photos": 3}'));
	await expect(page.getByText('This is not a file that this app saved.')).toBeVisible();
	await page.getByLabel('The file').setInputFiles(fileOf(file));
	await expect(page.getByText('2 entries of yours are back on this device.')).toBeVisible();
	await page.getByLabel('The file').setInputFiles(fileOf(file));
	await expect(page.getByText('Nothing new was in the file')).toBeVisible();
	await expect(page.getByText('2 entries are only on this device.')).toBeVisible();

	gate.openSockets();
	await page.reload();
	await expect(seen(page, 'everything shared')).toBeVisible();
	await page.goto(`${club}/meetings/evening/history`);
	await expect(page.getByText(/mill room (comes to|does not come to)/i)).toHaveCount(2);
});

test('an officer brings what somebody saved who can no longer sign in', async ({ browser }) => {
	const orchard = await phoneOf(browser, gateUrl, 'orchard');
	await writeTwo(orchard);
	await orchard.page.goto(`${orchard.club}/unshared`);
	const file = await saved(orchard.page, 'Save to a file');
	await orchard.page.context().close();

	// A keeper who loads it cannot bring it, and is told what to do with it.
	const mill = await phoneOf(browser, url, 'mill');
	await mill.page.goto(`${mill.club}/unshared`);
	await mill.page.getByLabel('The file').setInputFiles(fileOf(file));
	await expect(mill.page.getByText('Save them to a file and give the file to an officer.')).toBeVisible();
	await expect(mill.page.getByRole('button', { name: 'Bring them to the club' })).toHaveCount(0);

	const officer = await phoneOf(browser, url, 'harbour');
	await officer.page.goto(`${officer.club}/unshared`);
	await officer.page.getByLabel('The file').setInputFiles(fileOf(file));
	await expect(officer.page.getByText('2 entries of other members are kept apart')).toBeVisible();
	await hasNoFindings(officer.page);
	await officer.page.getByRole('button', { name: 'Bring them to the club' }).click();
	await expect(officer.page.getByText('2 entries are with the club now.')).toBeVisible();
	await expect(officer.page.getByRole('button', { name: 'Bring them to the club' })).toHaveCount(0);
	await officer.page.goto(`${officer.club}/meetings/evening/history`);
	await expect(officer.page.getByText(/orchard room (comes to|does not come to)/i)).toHaveCount(2);
});
