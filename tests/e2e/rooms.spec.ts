/** Lines and rooms on a phone: a first list, "still have them?", a spawn with a wet thumb, corrections, no signal. */
import { expect, test, type Locator, type Page } from '@playwright/test';
import { join } from 'node:path';
import { axeFindings } from '#tests/helpers/axeFindings.ts';
import { startServer, type RunningServer } from '#tests/helpers/startServer.ts';

const port = 4395;
const baseURL = `http://localhost:${port}`;
let server: RunningServer | undefined;
let page: Page;
let base = '';
let complaints: string[] = [];

test.describe.configure({ mode: 'serial' });
test.use({ baseURL });
test.beforeAll(async ({ browser }) => {
	test.setTimeout(180_000);
	server = await startServer({
		node: ['tests/e2e/smallClub.ts'],
		cwd: join(import.meta.dirname, '../..'),
		env: { PORT: String(port) },
		readyUrl: `${baseURL}/healthz`,
		timeoutMs: 150_000
	});
	const context = await browser.newContext({ baseURL, viewport: { width: 390, height: 844 } });
	page = await context.newPage();
	page.on('pageerror', (error) => complaints.push(error.message));
	await page.goto('/sign-in');
	await page.getByLabel('Name you sign in with').fill('harbour');
	await page.getByLabel('Password').first().fill('three unrelated words');
	await page.getByRole('button', { name: 'Sign in' }).click();
	await page.waitForURL(/\/c\/[^/]+/);
	base = /\/c\/[^/]+/.exec(page.url())?.[0] ?? '';
});
test.afterAll(async () => {
	await page.context().close();
	await server?.stop();
});
test.beforeEach(() => (complaints = []));
test.afterEach(() => expect(complaints).toEqual([]));

const findings = () => axeFindings(page);

/** The first place on the screen that says so; what a phone hides beside it does not count. */
function words(text: string): Locator {
	return page.getByText(text).filter({ visible: true }).first();
}

/** Presses, after looking that the whole target lies in the lower half of the screen and is large enough. */
async function tapLow(target: Locator): Promise<void> {
	await target.scrollIntoViewIfNeeded();
	const box = await target.boundingBox();
	expect(box, 'the target is on the screen').not.toBeNull();
	expect(box!.y).toBeGreaterThanOrEqual(422);
	expect(box!.y + box!.height).toBeLessThanOrEqual(844);
	expect(box!.height).toBeGreaterThanOrEqual(48);
	await target.click();
}

test('a first list: problems are told row by row, what is ready is written, the rest stays typed', async () => {
	await page.goto(`${base}/list`);
	const list = page.getByLabel('Line, room, count, since');
	await list.fill(
		[
			'Causeway guppy, harbour room, 2.5.12, 2024-05',
			'Causeway guppy, mill room, 1.2.6, March 2025',
			'Ferry corydoras, harbour room, 2.3',
			'Causeway guppy, Mil room, 3',
			'Ferry corydoras, mill room, a few'
		].join('\n')
	);
	await expect(page.getByText('3 rows ready, 2 to mend')).toBeVisible();
	await expect(page.getByText('There is no room called Mil room')).toBeVisible();
	await expect(page.getByText('“a few” cannot be read as a count')).toBeVisible();
	await page.getByRole('combobox', { name: 'Causeway guppy' }).selectOption({ label: 'Guppy' });
	expect(await findings()).toEqual([]);
	await page.getByRole('button', { name: 'Write 3 rows' }).click();
	await expect(page.getByText('3 rows are in the record, 2 lines were opened.')).toBeVisible();
	await expect(list).toHaveValue('Causeway guppy, Mil room, 3\nFerry corydoras, mill room, a few');
	await list.fill('');
});

test('the line reads "not asked yet", with its rooms and since when', async () => {
	await page.goto(`${base}/lines`);
	await page.getByRole('searchbox', { name: 'Find a line' }).fill('causeway');
	await page.getByRole('link', { name: 'Causeway guppy' }).click();
	await expect(page.getByRole('heading', { name: 'Causeway guppy', level: 1 })).toBeVisible();
	await expect(words('not asked yet, 2 rooms on the list, new')).toBeVisible();
	await expect(page.getByText('since May 2024, came from an old list')).toBeVisible();
	await expect(page.getByText('0 of 2 rooms in the last 180 days')).toBeVisible();
	expect(await findings()).toEqual([]);
});

test('"still have them?" is one tap, and one tap takes it back until it is shared', async () => {
	await page.context().setOffline(true);
	await tapLow(page.getByRole('button', { name: 'Still have them? Yes' }));
	await expect(page.getByText('harbour room still has Causeway guppy.')).toBeVisible();
	await expect(words('1 room confirmed, 1 not, new')).toBeVisible();
	await expect(words('only on this device')).toBeVisible();
	await page.getByRole('button', { name: 'Undo' }).click();
	await expect(words('not asked yet, 2 rooms on the list, new')).toBeVisible();
	await tapLow(page.getByRole('button', { name: 'Still have them? Yes' }));
	await expect(words('1 room confirmed, 1 not, new')).toBeVisible();
	await page.context().setOffline(false);
	await expect(page.getByText('only on this device')).toHaveCount(0);
});

test('a spawn with unknown father: four taps, no typing, all in the lower half', async () => {
	await page.goto(`${base}/room`);
	await expect(page.getByRole('heading', { name: 'harbour room', level: 1 })).toBeVisible();
	expect(await findings()).toEqual([]);
	await tapLow(page.getByRole('link', { name: 'Add a spawn' }));
	await tapLow(page.getByRole('button', { name: 'Group of Causeway guppy' }));
	await tapLow(page.getByRole('button', { name: 'Don’t know which male' }));
	expect(await findings()).toEqual([]);
	await tapLow(page.getByRole('button', { name: 'Save', exact: true }));
	await expect(page.getByRole('heading', { name: 'Drop of Causeway guppy' })).toBeVisible();
	await expect(page.getByText('males she lived with in the last 10 months are possible')).toBeVisible();
	expect(await findings()).toEqual([]);
});

test('the parents set anew: a male ruled out stays ruled out', async () => {
	await page.getByRole('button', { name: 'Set the parents anew' }).click();
	const sheet = page.getByRole('dialog', { name: 'Who are the parents?' });
	await sheet.getByRole('radio', { name: 'Ruled out' }).first().check();
	expect(await findings()).toEqual([]);
	await sheet.getByRole('button', { name: 'Save' }).click();
	await expect(sheet).toBeHidden();
	await expect(page.getByText('ruled out')).toBeVisible();
});

test('a count and a loss; then a correction with its reason in two taps', async () => {
	await page.getByRole('link', { name: 'Go to the brood' }).click();
	await expect(page.getByRole('heading', { name: 'Fry of Causeway guppy' })).toBeVisible();
	await tapLow(page.getByRole('button', { name: 'Count', exact: true }));
	await page.getByLabel('not sexed', { exact: true }).fill('24');
	await page.getByRole('dialog').getByRole('button', { name: 'Save' }).click();
	await expect(page.getByText('24 not sexed').first()).toBeAttached();
	await tapLow(page.getByRole('button', { name: '− Fewer' }));
	await page.getByRole('button', { name: 'one more, not sexed' }).click();
	await page.getByRole('dialog').getByRole('button', { name: 'Save' }).click();
	await expect(words('23?')).toBeVisible();
	expect(await findings()).toEqual([]);
	await page.getByRole('link', { name: 'History' }).click();
	const fewer = page.getByRole('listitem').filter({ hasText: '1? fewer (died)' });
	await fewer.getByRole('button', { name: 'Correct' }).click();
	expect(await findings()).toEqual([]);
	await page.getByRole('button', { name: 'It did not happen' }).click();
	await expect(words('Taken back: It did not happen.')).toBeVisible();
	expect(await findings()).toEqual([]);
	await page.goBack();
	await expect(words('24?')).toBeVisible();
});

test('without a signal a closed tank, a mix and today’s list still work, over a reload', async () => {
	await page.context().setOffline(true);
	await page.getByRole('button', { name: 'Close the tank' }).click();
	await page.getByRole('dialog').getByRole('button', { name: 'Close the tank' }).click();
	await page.getByRole('button', { name: 'Something got mixed' }).click();
	await page.getByRole('radio', { name: 'A shared net' }).check();
	expect(await findings()).toEqual([]);
	await page.getByRole('dialog').getByRole('button', { name: 'Save' }).click();
	await expect(page.getByText('Thank you for saying so early.')).toBeVisible();
	await page.goto(`${base}/today`);
	await expect(page.getByText('Suspected mix in')).toBeVisible();
	await page
		.getByRole('listitem')
		.filter({ hasText: 'Suspected mix in' })
		.getByRole('button', { name: 'Undo' })
		.click();
	await expect(page.getByRole('listitem').filter({ hasText: 'Suspected mix in' })).toHaveCount(0);
	expect(await findings()).toEqual([]);
	await page.context().setOffline(false);
});

test('private words stay with the room', async () => {
	await page.goto(`${base}/room`);
	await page.getByRole('button', { name: 'More', exact: true }).click();
	await page.getByRole('button', { name: 'Private words for the room' }).click();
	await page.getByRole('textbox', { name: 'Words' }).fill('Two of the old ones look thin.');
	expect(await findings()).toEqual([]);
	await page.getByRole('button', { name: 'Keep these words' }).click();
	await expect(
		page.getByRole('listitem').filter({ hasText: 'Two of the old ones look thin.' })
	).toContainText('kept for your room');
	await page.goto(`${base}/room`);
	await expect(page.getByText('Two of the old ones look thin.')).toBeVisible();
});

test('a long list written without a signal is taken back by one press, and stands where it was typed', async () => {
	await page.context().setOffline(true);
	await page.goto(`${base}/list`);
	const list = page.getByLabel('Line, room, count, since');
	const typed = Array.from({ length: 90 }, (_, i) => `Causeway guppy, mill room, ${i + 1}`).join('\n');
	await list.fill(typed);
	await page.getByRole('button', { name: 'Write 90 rows' }).click();
	await expect(page.getByText('90 rows are in the record.')).toBeVisible();
	await expect(list).toHaveValue('');
	await page.getByRole('button', { name: 'Take the whole list back' }).click();
	await expect(list).toHaveValue(typed);
	await page.goto(`${base}/today`);
	await expect(page.getByText('From an old list: mill room has 90?')).toHaveCount(0);
	await page.goto(`${base}/list`);
	await list.fill('');
	await page.context().setOffline(false);
});

test('an officer writes what a keeper said by phone: still there, breeding; the room closed', async () => {
	await page.goto(`${base}/rooms/room-mill`);
	const answers = page.getByRole('group', { name: 'Still have them? Weir cory' });
	await answers.getByRole('button', { name: 'Yes, breeding' }).click();
	await expect(page.getByText('mill room still has Weir cory, told by mill keeper.')).toBeVisible();
	await expect(words('by mill keeper, by phone through harbour keeper')).toBeVisible();
	await expect(words('Breeding, said today')).toBeVisible();
	await answers.getByRole('button', { name: 'Other' }).click();
	await page.getByRole('radio', { name: 'Not sure' }).check();
	expect(await findings()).toEqual([]);
	await page.getByRole('dialog').getByRole('button', { name: 'Save' }).click();
	await expect(words('Not sure that they are still there: said today')).toBeVisible();
	await page.getByRole('button', { name: 'More', exact: true }).click();
	await page.getByRole('button', { name: 'Close the room: nothing in or out, by phone' }).click();
	await page.getByRole('dialog').getByRole('button', { name: 'Close the room' }).click();
	await expect(words('Closed by mill keeper, by phone through harbour keeper')).toBeVisible();
});

test('a pair is split off, then goes back: the counts follow and the pair has ended', async () => {
	await page.goto(`${base}/groups/harbour-wild`);
	await page.getByRole('button', { name: 'Move or split' }).click();
	await page.getByRole('button', { name: 'one more, males', exact: true }).click();
	await page.getByRole('button', { name: 'one more, females', exact: true }).click();
	await page.getByLabel('Name, if you like').fill('The pair');
	expect(await findings()).toEqual([]);
	await page.getByRole('dialog').getByRole('button', { name: 'Save' }).click();
	await expect(words('2m 3f')).toBeVisible();
	await page.goto(`${base}/room`);
	await page.getByRole('link', { name: 'The pair' }).click();
	await page.getByRole('button', { name: 'Move or split' }).click();
	await page.getByRole('button', { name: 'All of them: 1m 1f' }).click();
	await page.getByRole('radio', { name: 'Group of Weir cory' }).check();
	await page.getByRole('dialog').getByRole('button', { name: 'Save' }).click();
	await expect(words('1m 1f fewer, moved to group of Weir cory')).toBeVisible();
	await page.goto(`${base}/groups/harbour-wild`);
	await expect(words('3m 4f')).toBeVisible();
});

for (const path of ['lines/new', 'rooms', 'groups/nowhere', 'list', 'more'] as const) {
	test(`${path} has no findings by night on a desk`, async () => {
		await page.setViewportSize({ width: 1440, height: 900 });
		await page.emulateMedia({ colorScheme: 'dark' });
		await page.goto(`${base}/${path}`);
		await expect(page.getByRole('heading', { level: 1 }).first()).toBeVisible();
		expect(await findings()).toEqual([]);
	});
}
