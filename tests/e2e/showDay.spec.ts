/**
 * A show without a signal: giver and receiver log one bag, a third device tells of the same group, the server dies
 * between their returns, and in the end everybody reads the same.
 */
import { expect, test, type Browser, type Page } from '@playwright/test';
import { bagNumberOf } from '#handover/bagNumberOf.ts';
import { ask, everythingShared, newPhone, statusOf, type AppPhone } from '#tests/helpers/appPhone.ts';
import { ClubServer } from '#tests/helpers/clubServer.ts';
import { until } from '#tests/helpers/until.ts';
import { seen, typeNumber } from './smallClubPages.ts';

const server = new ClubServer(4510);
/** Phones and tablets by name; each is signed in once for all the tests. */
const devices = new Map<string, AppPhone>();

test.beforeAll(() => server.start());
test.afterAll(async () => {
	for (const { context } of devices.values()) await context.close();
	await server.remove();
});

async function device(browser: Browser, name: string): Promise<AppPhone> {
	const there = devices.get(name) ?? (await newPhone(browser, server.url, name.split(' ')[0]!));
	devices.set(name, there);
	return there;
}

const press = (page: Page, name: string | RegExp) => page.getByRole('button', { name, exact: true }).click();

/** The giver's half: number, receiver, fish of a group, handed over. */
async function logGiven({ page }: AppPhone, number: string, to: string): Promise<void> {
	await typeNumber(page, number);
	await page.getByRole('listitem').filter({ hasText: to }).click();
	await page.getByRole('listitem').filter({ hasText: 'group of Weir cory' }).click();
	await press(page, 'one more, males');
	await press(page, 'one more, females');
	await press(page, '1m 1f in the bag');
	await press(page, 'Handed over');
	await expect(page.getByRole('heading', { name: 'Who said what' })).toBeVisible();
}

/** The receiver's half: the same number, one alive and two dead. */
async function logReceived({ page }: AppPhone, number: string, room: string): Promise<void> {
	await typeNumber(page, number);
	await page
		.getByRole('listitem')
		.filter({ hasText: `For me: ${room}` })
		.click();
	await press(page, 'I have it');
	await press(page, 'It arrived');
	await press(page, 'one more, males');
	await page.getByLabel('Dead on arrival').fill('2');
	await press(page, '1m arrived alive');
	await expect(page.getByText('Keep new fish apart for 28 days.')).toBeVisible();
}

async function loseOneFemale({ page, club }: AppPhone, group: string): Promise<void> {
	await page.goto(`${club}/groups/${group}`);
	await press(page, '− Fewer');
	await press(page, 'one more, females');
	await page.getByRole('dialog').getByRole('button', { name: 'Save' }).click();
	await expect(page.getByRole('dialog')).toBeHidden();
}

async function count({ page, club }: AppPhone, group: string, males: string, females: string): Promise<void> {
	await page.goto(`${club}/groups/${group}`);
	await press(page, 'Count');
	await page.getByLabel('males', { exact: true }).fill(males);
	await page.getByLabel('females', { exact: true }).fill(females);
	await page.getByRole('dialog').getByRole('button', { name: 'Save' }).click();
	await expect(page.getByRole('dialog')).toBeHidden();
}

/** What depends on who asks. */
const personal = new Set(['giver', 'receiver', 'mine', 'mayConfirm', 'part', 'runs']);

/** What the club knows by this device. */
async function picture({ page }: AppPhone, number: string, group: string) {
	const bag = (await ask(page, 'bagPage', { bag: number }))!;
	const newGroup = bag.arrivals[0]?.group ?? '';
	const whole = {
		newGroup,
		bag,
		groups: [
			(await ask(page, 'groupPage', { group }))!,
			(await ask(page, 'groupPage', { group: newGroup }))!
		],
		entries: await ask(page, 'entriesOf', {}),
		counts: await ask(page, 'counts', {})
	};
	const impersonal = JSON.stringify(whole, (key, value: unknown) => (personal.has(key) ? undefined : value));
	return JSON.parse(impersonal) as typeof whole;
}

interface ShowDay {
	readonly title: string;
	readonly giver: string;
	readonly receiver: string;
	readonly third: string;
	readonly group: string;
	/** Which of the three has a signal first. */
	readonly back: readonly ('giver' | 'receiver' | 'third')[];
	/** What the third device tells, at which moment of the day. */
	tell(third: AppPhone): Promise<void>;
	readonly toldFirst: boolean;
	/** The giver's group in the end, worked out by hand. */
	readonly left: string;
	readonly leftOut: number;
}

const days: readonly ShowDay[] = [
	{
		title: 'the receiver comes back first; the giver’s tablet told of a loss',
		giver: 'harbour phone',
		receiver: 'mill phone',
		third: 'harbour tablet',
		group: 'harbour-wild',
		back: ['receiver', 'third', 'giver'],
		tell: (third) => loseOneFemale(third, 'harbour-wild'),
		toldFirst: false,
		// 3m 4f, less 1m 1f in the bag, less the one that died.
		left: '2m 2f',
		leftOut: 0
	},
	{
		title: 'the giver comes back first; the giver’s tablet counted before the bag was packed',
		giver: 'orchard phone',
		receiver: 'mill phone',
		third: 'orchard tablet',
		group: 'orchard-wild',
		back: ['giver', 'receiver', 'third'],
		tell: (third) => count(third, 'orchard-wild', '4', '2'),
		toldFirst: true,
		// The count stands, less 1m 1f packed after it.
		left: '3m 1f',
		leftOut: 0
	},
	{
		title: 'the third comes back first, a member with no part in the group, whose word waits for a tap',
		giver: 'mill phone',
		receiver: 'harbour phone',
		third: 'orchard phone',
		group: 'mill-shop',
		back: ['third', 'receiver', 'giver'],
		tell: (third) => loseOneFemale(third, 'mill-shop'),
		toldFirst: false,
		// 2m 2f, less 1m 1f in the bag; what was only told is shown and left out of the sum.
		left: '1m 1f',
		leftOut: 1
	}
];

for (const [index, day] of days.entries()) {
	test(day.title, async ({ browser }) => {
		test.setTimeout(180_000);
		const number = bagNumberOf(920_000 + index);
		const three = {
			giver: await device(browser, day.giver),
			receiver: await device(browser, day.receiver),
			third: await device(browser, day.third)
		};
		const room = `${day.receiver.split(' ')[0]} room`;
		for (const { page, club, context } of Object.values(three)) {
			await everythingShared(page);
			await page.goto(`${club}/bags/new`);
			await expect(page.getByRole('button', { name: '1', exact: true })).toBeVisible();
			await context.setOffline(true);
		}
		if (day.toldFirst) await day.tell(three.third);
		await logGiven(three.giver, number, room);
		await logReceived(three.receiver, number, room);
		if (!day.toldFirst) await day.tell(three.third);
		for (const { page } of Object.values(three)) {
			await expect(page.getByText(/^\d not shared yet, no signal$/)).toBeVisible();
		}

		const everybody = [...devices.values()];
		for (const [turn, who] of day.back.entries()) {
			const { context, page } = three[who];
			await context.setOffline(false);
			// The second one's entries are under way when the server dies, the others' have been called shared.
			if (turn === 1) await until('the device to be heard', async () => (await statusOf(page)).connected);
			else await everythingShared(page);
			await server.kill();
			const kept = new Set(await server.onDisk());
			const called = everybody.flatMap(({ calledShared }) => [...calledShared]);
			expect(called.filter((id) => !kept.has(id))).toEqual([]);
			await server.start();
		}
		for (const { page } of Object.values(three)) await everythingShared(page);

		const called = everybody.flatMap(({ calledShared }) => [...calledShared]);
		const pictures = [];
		for (const each of Object.values(three)) {
			await until('the device to have all that was ever called shared', async () => {
				const known = (await ask(each.page, 'entriesOf', {})).map(({ entry }) => entry.id);
				return new Set([...known, ...called]).size === known.length;
			});
			pictures.push(await picture(each, number, day.group));
		}
		expect(pictures[1]).toEqual(pictures[0]);
		expect(pictures[2]).toEqual(pictures[0]);
		expect(pictures[0]!.bag.versions.map(({ side }) => side).sort()).toEqual(['giver', 'receiver']);
		expect(pictures[0]!.groups.map(({ leftOut }) => leftOut)).toEqual([day.leftOut, 0]);

		for (const { page, club } of Object.values(three)) {
			await page.goto(`${club}/bags/${number}`);
			await expect(page.getByText('2 went in, 3 came out.')).toBeVisible();
			await expect(page.getByRole('heading', { name: 'The giver' })).toBeVisible();
			await expect(page.getByRole('heading', { name: 'The receiver' })).toBeVisible();
			await page.goto(`${club}/groups/${day.group}`);
			await expect(seen(page, day.left)).toBeVisible();
			if (day.leftOut) await expect(page.getByText('1 statement is not in these sums.')).toBeVisible();
			await page.goto(`${club}/groups/${pictures[0]!.newGroup}`);
			await expect(seen(page, '1m')).toBeVisible();
		}
	});
}
