/**
 * The coordinator's Sunday night: a plan is worked out, looked at, changed by hand and sent; one keeper says no, the
 * plan is mended, the others agree, the bags are on the meeting's screen, and one of them arrives alive.
 */
import { expect, test, type Page } from '@playwright/test';
import { bagNumberOf } from '#handover/bagNumberOf.ts';
import { newPhone, write } from '#tests/helpers/appPhone.ts';
import { spareOffered } from '#ui/groups/groupDrafts.ts';
import { momentWritten } from '#ui/shared/dateWritten.ts';
import { hasNoFindings, phoneOf, seen, startSmallClub, typeNumber, type Keeper } from './smallClubPages.ts';
import type { RunningServer } from '#tests/helpers/startServer.ts';

const port = 4481;
const url = `http://localhost:${port}`;
let server: RunningServer | undefined;
test.beforeAll(async ({ browser }) => {
	server = await startSmallClub(port);
	// Two rooms have fish to spare, so that there is another way when one of them says no.
	for (const keeper of ['harbour', 'orchard'] as const) {
		const phone = await newPhone(browser, url, keeper);
		const group = { id: `${keeper}-wild`, line: { id: 'weir-cory' }, room: { id: `room-${keeper}` } };
		const fish = { males: 1, females: 1, unsexed: 0 };
		await write(phone.page, [[spareOffered(group, momentWritten(new Date()), fish, '', '')]]);
		await expect(phone.page.getByText('everything shared')).toBeVisible();
		await phone.context.close();
	}
});
test.afterAll(() => server?.stop());
const slips = (page: Page) => page.getByRole('button', { name: /^Figures of bags? \d/ });
const proven = (page: Page) => page.getByText('No better plan exists for what was asked.');

async function workOut(page: Page, club: string, bagsAtMost = ''): Promise<void> {
	await page.goto(`${club}/plans`);
	await page.getByRole('link', { name: 'Work out a plan' }).click();
	await page.getByRole('radio', { name: /^Club evening/ }).check();
	if (bagsAtMost) {
		await page.getByText('More wishes').click();
		await page.getByLabel('At most so many bags').fill(bagsAtMost);
		await hasNoFindings(page);
	}
	await page.getByRole('button', { name: 'Work it out' }).click();
	await expect(proven(page)).toBeVisible({ timeout: 30_000 });
}

test('planned without a signal, changed by hand, planned again, kept over a reload', async ({ browser }) => {
	const { page, club } = await phoneOf(browser, url, 'harbour');
	await workOut(page, club);
	await hasNoFindings(page);
	const bags = await slips(page).count();
	expect(bags).toBeGreaterThan(0);
	await partsAndPaper(page);
	await page.getByRole('button', { name: /^Figures of bag 1,/ }).click();
	await hasNoFindings(page);
	await page.getByRole('button', { name: 'Take it out' }).click();
	await expect(slips(page)).toHaveCount(bags - 1);
	await expect(page.getByText('Changed by hand.')).toBeVisible();
	await page.reload();
	await expect(slips(page)).toHaveCount(bags - 1);
	await page.getByRole('button', { name: 'Undo the last change' }).click();
	await expect(slips(page)).toHaveCount(bags);
	await page.getByRole('button', { name: /^Figures of bag 1,/ }).click();
	await page.getByRole('button', { name: 'It stays' }).click();
	await expect(page.getByText('Stays in the plan')).toBeVisible();
	await page.context().setOffline(true);
	await page.getByRole('button', { name: 'Plan the rest again' }).click();
	await expect(proven(page)).toBeVisible({ timeout: 30_000 });
	await expect(page.getByText('Stays in the plan')).toBeVisible();
	// Plan B is prepared for each bag and each room, without a signal too.
	await part(page, 'Plan B').click();
	await expect(page.getByRole('heading', { name: 'If a room drops out' })).toBeVisible();
	await expect(page.getByText('Preparing plan B')).toHaveCount(0, { timeout: 30_000 });
	await hasNoFindings(page);
	await part(page, 'Bags').click();
	// What if a room drops out: no bag of it is left, and it can be put back.
	await page.getByRole('button', { name: /^Figures of bag 1,/ }).click();
	await page.getByRole('button', { name: 'Plan without harbour room' }).click();
	await expect(page.getByText('Planned without harbour room.')).toBeVisible();
	await expect(page.getByText(/from harbour room/)).toHaveCount(0);
	await page.getByRole('button', { name: 'Put harbour room back' }).click();
	await expect(page.getByText('Planned without harbour room.')).toHaveCount(0);
	await page.context().setOffline(false);
});

test('sent, one says no, mended by itself, agreed, on the meeting’s screen, done', async ({ browser }) => {
	test.setTimeout(180_000);
	const harbour = await phoneOf(browser, url, 'harbour');
	await workOut(harbour.page, harbour.club, '1');
	await harbour.page.getByRole('button', { name: 'Send it' }).click();
	await hasNoFindings(harbour.page);
	await harbour.page.getByRole('button', { name: 'Ask all of them' }).click();
	await harbour.page.waitForURL(/plans\/[0-9a-f-]{36}$/);
	await expect(harbour.page.getByRole('heading', { name: 'Swaps for Club evening' })).toBeVisible();
	await expect(harbour.page.getByText('everything shared')).toBeVisible();
	await hasNoFindings(harbour.page);
	const plan = harbour.page.url();

	// The room that gives the first bag says no.
	const row = harbour.page.getByRole('list', { name: 'Bags of this plan' }).getByRole('link').first();
	const giver = (/^1: (\w+) /.exec((await row.textContent()) ?? '')?.[1] ?? '') as Keeper;
	const exchange = ((await row.getAttribute('href')) ?? '').split('/').at(-1) ?? '';
	const other = giver === 'harbour' ? harbour : await phoneOf(browser, url, giver);
	await answer(other.page, `${other.club}/exchanges/${exchange}`, giver, 'No');
	await expect(seen(other.page, 'declined')).toBeVisible();

	await harbour.page.goto(plan);
	await expect(harbour.page.getByText('One bag will not move as planned.')).toBeVisible();
	const mended = harbour.page.getByRole('button', { name: 'Ask them instead' });
	await expect(mended).toBeVisible({ timeout: 30_000 });
	await hasNoFindings(harbour.page);
	await mended.click();
	await expect(harbour.page.getByText('will not move as planned.')).toHaveCount(0);
	await expect(harbour.page.getByText('everything shared')).toBeVisible();

	// All others say yes, each in their own room.
	for (const keeper of ['harbour', 'mill', 'orchard'] as const) {
		const phone = await phoneOf(browser, url, keeper);
		await phone.page.goto(plan);
		const links = phone.page.getByRole('list', { name: 'Bags of this plan' }).getByRole('link');
		await expect(links.first()).toBeVisible();
		const exchanges = await links.evaluateAll((all) => all.map((each) => each.getAttribute('href') ?? ''));
		for (const href of exchanges) {
			await phone.page.goto(href);
			await expect(phone.page.getByRole('heading', { name: 'What each side says' })).toBeVisible();
			if (await seen(phone.page, 'declined').isVisible()) continue;
			if (await phone.page.getByRole('button', { name: `Answer for ${keeper} room` }).isVisible())
				await answer(phone.page, href, keeper, 'Yes');
		}
		await expect(phone.page.getByText('everything shared')).toBeVisible();
		await phone.page.context().close();
	}
	await harbour.page.goto(plan);
	await expect(seen(harbour.page, 'agreed')).toBeVisible();
	await expect(harbour.page.getByText(/not answered yet/)).toHaveCount(0);
	await harbour.page.goto(`${harbour.club}/meetings/evening`);
	await expect(
		harbour.page.getByRole('list', { name: 'Exchanges for this meeting' }).getByText('agreed').first()
	).toBeVisible();
	await harbour.page.goto(`${harbour.club}/plans`);
	await expect(harbour.page.getByText(/\d bags?: \d agreed/)).toBeVisible();
	await hasNoFindings(harbour.page);

	// One agreed bag travels: filled, handed over, received alive.
	await harbour.page.goto(plan);
	const bagRow = harbour.page.getByRole('list', { name: 'Bags of this plan' }).getByRole('listitem');
	const agreed = bagRow.filter({ hasText: 'agreed' }).first();
	const [, from, to] = /(harbour|mill|orchard) room to (harbour|mill|orchard) room/.exec(
		(await agreed.textContent()) ?? ''
	) as unknown as [string, Keeper, Keeper];
	const moved = (await agreed.getByRole('link').getAttribute('href')) ?? '';
	const number = bagNumberOf(940_001);
	const sender = await phoneOf(browser, url, from);
	await sender.page.goto(moved);
	await sender.page.getByRole('link', { name: 'Log the bag' }).click();
	await typeNumber(sender.page, number);
	await expect(sender.page.getByText('The fish stand as agreed.')).toBeVisible();
	await sender.page.getByRole('button', { name: 'Handed over' }).click();
	await expect(sender.page.getByText('everything shared')).toBeVisible();
	const receiver = await phoneOf(browser, url, to);
	await receiver.page.goto(moved);
	await expect(seen(receiver.page, 'handed over')).toBeVisible();
	await receiver.page.getByRole('listitem').getByRole('link', { name: /^94/ }).click();
	await receiver.page.getByRole('button', { name: 'It arrived' }).click();
	await receiver.page.getByRole('button', { name: /arrived alive/ }).click();
	await expect(receiver.page.getByText('everything shared')).toBeVisible();

	await harbour.page.goto(plan);
	const done = bagRow.filter({ has: harbour.page.locator(`a[href="${moved}"]`) });
	await expect(done).toContainText(/arrived: /);
	await expect(harbour.page.getByText(/\d bags?: .*1 done/)).toBeVisible();
	await part(harbour.page, 'Planned and done').click();
	await expect(
		harbour.page.getByRole('rowheader', { name: new RegExp(`^${to} room .*, done$`) })
	).toBeVisible();
	await hasNoFindings(harbour.page);
});

async function answer(page: Page, address: string, keeper: Keeper, word: 'Yes' | 'No'): Promise<void> {
	await page.goto(address);
	await page.getByRole('button', { name: `Answer for ${keeper} room` }).click();
	await page.getByRole('radio', { name: word, exact: true }).check();
	await page.getByRole('button', { name: 'Save the answer' }).click();
	await expect(page.getByRole('dialog')).toHaveCount(0);
}

const part = (page: Page, name: string) =>
	page.getByRole('navigation', { name: 'Parts of the plan' }).getByRole('link', { name });

/** On a phone one part at a time; on paper the chosen plan alone, its figures, drawing, table and pairs all told. */
async function partsAndPaper(page: Page): Promise<void> {
	const paper = page.locator('.only-print:has(ol)');
	const told = [
		paper.getByText(/Their young: /).first(),
		paper.getByRole('columnheader', { name: 'From', includeHidden: true }),
		paper.getByText(/ with .* of /).first()
	];
	for (const each of told) await expect(each).toBeHidden();
	await page.emulateMedia({ media: 'print' });
	for (const each of told) await expect(each).toBeVisible();
	await expect(slips(page).first()).toBeHidden();
	await page.emulateMedia({ media: null });
	await part(page, 'In the rooms').click();
	await expect(page.getByText('Who breeds matters as much as what travels.').first()).toBeVisible();
	await expect(slips(page).first()).toBeHidden();
	await part(page, 'The picture').click();
	// The paper holds the same, hidden: a click on that one would wait for ever.
	await page.getByText('The same as a table').filter({ visible: true }).click();
	await hasNoFindings(page);
	await part(page, 'On paper').click();
	await expect(page.getByRole('region', { name: 'Sheet of harbour room' })).toBeVisible();
	await hasNoFindings(page);
	await page.emulateMedia({ media: 'print' });
	await expect(page.getByRole('heading', { name: 'The plan' })).toBeHidden();
	await expect(page.getByRole('region', { name: 'Sheet of harbour room' })).toBeVisible();
	await page.emulateMedia({ media: null });
	await part(page, 'Bags').click();
}
