/** A whole day without a signal: 200 entries, a reload, the browser closed and started again, then all is shared. */
import { chromium, expect, test, type BrowserContext, type Page } from '@playwright/test';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Draft } from '#records/entry.ts';
import { bagNumberOf } from '#handover/bagNumberOf.ts';
import { bagged, handedOver } from '#ui/bags/bagDrafts.ts';
import { changed, counted } from '#ui/groups/groupDrafts.ts';
import { checkedIn } from '#ui/rooms/roomDrafts.ts';
import { momentWritten } from '#ui/shared/dateWritten.ts';
import {
	appIsKept,
	ask,
	everythingShared,
	listen,
	newPhone,
	phoneScreen,
	signInOn,
	statusOf,
	write,
	zoneAtNoon
} from '#tests/helpers/appPhone.ts';
import { ClubServer } from '#tests/helpers/clubServer.ts';
import { chromiumArgs, chromiumThere } from '#tests/helpers/findChromium.ts';
import { typeNumber } from './smallClubPages.ts';

const server = new ClubServer(4512);
const profile = mkdtempSync(join(tmpdir(), 'kithline-day-'));
const dayMs = 86_400_000;
const mine = { id: 'mill-shop', room: { id: 'room-mill' }, line: { id: 'weir-cory' } };
const fish = (males: number, females: number) => ({ males, females, unsexed: 0 });

test.beforeAll(() => server.start());
test.afterAll(async () => {
	await server.remove();
	rmSync(profile, { recursive: true, force: true });
});

/** The browser as it is started on the phone: everything that it keeps lies in one folder. */
async function startBrowser(): Promise<{ context: BrowserContext; page: Page; calledShared: Set<string> }> {
	const context = await chromium.launchPersistentContext(profile, {
		executablePath: chromiumThere() ?? undefined,
		args: chromiumArgs,
		viewport: phoneScreen,
		baseURL: server.url,
		timezoneId: zoneAtNoon()
	});
	const calledShared = await listen(context);
	return { context, page: context.pages()[0] ?? (await context.newPage()), calledShared };
}

/** Half a day's writings: ten bags known by number and receiver alone, 78 counts, losses and "still have them". */
function halfDay(half: number): Draft[][] {
	const bags = Array.from({ length: 10 }, (_, index) => {
		const said = {
			bag: `bag-${half}-${index}`,
			number: bagNumberOf(930_100 + half * 10 + index),
			fromRoom: 'room-mill',
			to: { to: 'room', room: 'room-orchard' },
			meeting: 'evening'
		} as const;
		const now = momentWritten(new Date());
		return [bagged(said, now), handedOver(said.bag, now, 'room-mill', 'room-orchard', 'evening')];
	});
	const others = Array.from({ length: 78 }, (_, index) => {
		const now = momentWritten(new Date());
		if (index % 3 === 0) return [counted(mine, now, fish(90 + index, 100), 'counted')];
		if (index % 3 === 1) return [changed(mine, now, fish(1, 0), 'died')];
		return [checkedIn('room-mill', 'weir-cory', now, 'yes', { note: `look ${index}` })];
	});
	return [...bags, ...others];
}

const press = (page: Page, name: string) => page.getByRole('button', { name, exact: true }).click();

test('200 entries, a reload and a new start of the browser: all are shared, none twice, none lost', async ({
	browser
}) => {
	test.setTimeout(240_000);
	// At the table somebody with a signal has logged two bags for the mill.
	const harbour = await newPhone(browser, server.url, 'harbour');
	const numbers = [bagNumberOf(930_001), bagNumberOf(930_002)];
	const now = momentWritten(new Date());
	await write(
		harbour.page,
		numbers.map((number) => {
			const contents = [{ group: 'harbour-wild', fish: fish(1, 1) }];
			const to = { to: 'room', room: 'room-mill' } as const;
			return [
				bagged(
					{ bag: `of-${number}`, number, line: 'weir-cory', contents, fromRoom: 'room-harbour', to },
					now
				)
			];
		})
	);
	await everythingShared(harbour.page);

	let phone = await startBrowser();
	const club = await signInOn(phone.page, 'mill');
	await appIsKept(phone.page);
	await phone.page.goto(`${club}/bags`);
	await expect(phone.page.getByRole('link', { name: /^93 ?0001/ })).toBeVisible();
	await everythingShared(phone.page);
	await phone.context.setOffline(true);
	await server.kill();

	// By hand: a bag that came, a bag given, a count, a slip that is taken back.
	const { page } = phone;
	await page.goto(`${club}/bags/${numbers[0]}`);
	await press(page, 'It arrived');
	await press(page, 'one less, females');
	await page.getByLabel('Dead on arrival').fill('2');
	await press(page, '1m arrived alive');
	await expect(page.getByText('Keep new fish apart for 28 days.')).toBeVisible();
	await page.goto(`${club}/bags/new`);
	await typeNumber(page, bagNumberOf(930_003));
	await page.getByRole('listitem').filter({ hasText: 'orchard room' }).click();
	await press(page, 'Handed over');
	await expect(page.getByRole('heading', { name: 'Who said what' })).toBeVisible();
	await page.goto(`${club}/groups/mill-shop`);
	await press(page, 'Count');
	await page.getByLabel('males', { exact: true }).fill('99');
	await page.getByRole('dialog').getByRole('button', { name: 'Save' }).click();
	await expect(page.getByText('4 not shared yet, no signal')).toBeVisible();
	await press(page, 'Still have them? Yes');
	await expect(page.getByText('5 not shared yet, no signal')).toBeVisible();
	await press(page, 'Undo');
	await expect(page.getByText('4 not shared yet, no signal')).toBeVisible();

	await write(page, halfDay(0));
	await expect(page.getByText('102 not shared yet, no signal')).toBeVisible();
	await page.reload();
	await expect(page.getByText('102 not shared yet, no signal')).toBeVisible();
	await write(page, halfDay(1));
	const ids = (await statusOf(page)).unshared.map(({ id }) => id);
	expect(new Set(ids).size).toBe(200);
	await phone.context.close();

	phone = await startBrowser();
	await phone.context.setOffline(true);
	await phone.page.goto(`${club}/today`);
	await expect(phone.page.getByText('200 written, 200 not shared yet')).toBeVisible();
	await expect(phone.page.getByText('200 not shared yet, no signal')).toBeVisible();
	const list = phone.page.getByRole('list', { name: 'Written today on this phone' });
	await expect(list.getByRole('listitem')).toHaveCount(200);
	await expect(list.getByText('only on this device')).toHaveCount(200);
	expect((await statusOf(phone.page)).unshared.map(({ id }) => id)).toEqual(ids);

	await server.start();
	await phone.context.setOffline(false);
	await everythingShared(phone.page);
	await expect(phone.page.getByText('200 written, all shared')).toBeVisible();
	await expect(list.getByRole('listitem')).toHaveCount(200);
	await expect(list.getByText('shared with the club')).toHaveCount(200);
	expect([...phone.calledShared].sort()).toEqual([...ids].sort());
	// Another member's phone has all of them, each once, and all of them count.
	await everythingShared(harbour.page, 60_000);
	await expect
		.poll(async () => {
			const told = await ask(harbour.page, 'entriesOf', { by: 'mill' });
			return told.filter(({ entry, view }) => ids.includes(entry.id) && view.verdict.name === 'counts')
				.length;
		})
		.toBe(200);

	// The next morning.
	await phone.page.clock.setFixedTime(Date.now() + dayMs);
	await phone.page.goto(`${club}/bags`);
	await expect(phone.page.getByText('Yesterday: 23 bags, 1 to settle.')).toBeVisible();
	await phone.context.close();

	await server.kill();
	const rows = await server.onDisk();
	const wanted = new Set(ids);
	expect(rows.filter((id) => wanted.has(id)).sort()).toEqual([...ids].sort());
	expect(new Set(rows).size).toBe(rows.length);
});
