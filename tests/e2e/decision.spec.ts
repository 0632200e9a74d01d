/** Getting in, deciding, and going out: invitations, what is not somebody's to decide, a confirming tap, sign-out. */
import { expect, test, type Browser, type BrowserContext, type Page } from '@playwright/test';
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
	type AppPhone
} from '#tests/helpers/appPhone.ts';
import { ClubServer, smallClubId } from '#tests/helpers/clubServer.ts';
import { HttpGate } from '#tests/helpers/httpGate.ts';
import { checkedIn } from '#ui/rooms/roomDrafts.ts';
import { momentWritten } from '#ui/shared/dateWritten.ts';
import { hasNoFindings, seen } from './smallClubPages.ts';

const server = new ClubServer(4514);
const gate = new HttpGate(4514);
const gateUrl = 'http://localhost:4515';
const phones = new Map<string, AppPhone>();

test.beforeAll(async () => {
	await server.start();
	await gate.listen(4515);
});
test.afterAll(async () => {
	for (const { context } of phones.values()) await context.close();
	await gate.close();
	await server.remove();
});

async function phoneOf(browser: Browser, keeper: string): Promise<AppPhone> {
	const there = phones.get(keeper) ?? (await newPhone(browser, server.url, keeper));
	phones.set(keeper, there);
	return there;
}

const press = (page: Page, name: string | RegExp) => page.getByRole('button', { name, exact: true }).click();

async function invite({ page, club }: AppPhone, name: string): Promise<{ link: string; code: string }> {
	await page.goto(`${club}/people/invite`);
	await page.getByLabel('Name', { exact: true }).fill(name);
	await press(page, 'Make the invitation');
	const slip = page.getByRole('region', { name: 'Join the club' });
	await expect(slip.getByRole('heading', { name: `Join the club: ${name}` })).toBeVisible();
	const code = (await slip.getByText(/^\d{4} \d{4} \d{4}$/).textContent()) ?? '';
	const link = (await page.getByText(/^http\S+\/invitation\/\S+$/).textContent()) ?? '';
	return { link, code };
}

async function join(page: Page, name: string): Promise<void> {
	await page.getByLabel('Name to sign in with').fill(name);
	await page.getByLabel('A password').fill('four quiet grebes');
	await press(page, 'Join');
	await page.waitForURL((at) => at.pathname.startsWith(`/c/${smallClubId}`));
}

test('an invitation lets one person in, once, by its link or by the code on its slip', async ({
	browser
}) => {
	const officer = await phoneOf(browser, 'harbour');
	const first = await invite(officer, 'Wren');
	const wren = await (await browser.newContext({ viewport: phoneScreen })).newPage();
	await wren.goto(first.link);
	await expect(wren.getByRole('heading', { name: 'Join Small Club' })).toBeVisible();
	await expect(wren.getByLabel('Name or handle')).toHaveValue('Wren');
	await hasNoFindings(wren);
	await join(wren, 'wren');
	await expect(wren.getByText('everything shared')).toBeVisible();
	await wren.context().close();

	const late = await (await browser.newContext({ viewport: phoneScreen, baseURL: server.url })).newPage();
	await late.goto(first.link);
	await expect(late.getByRole('heading', { name: 'This invitation does not work' })).toBeVisible();
	await expect(late.getByText('It may be used already, or too old.')).toBeVisible();
	await hasNoFindings(late);

	const second = await invite(officer, 'Siskin');
	const enter = async (code: string) => {
		await late.goto('/');
		await late.getByRole('link', { name: 'I have a slip with a code' }).click();
		await late.getByLabel('Code').fill(code);
		await press(late, 'Go on');
	};
	const last = second.code.at(-1);
	const wrong = `${second.code.slice(0, -1)}${last === '0' ? '1' : '0'}`;
	await enter(wrong);
	await expect(
		late.getByText('Check the numbers, or ask an officer of your club for a new one.')
	).toBeVisible();
	await expect(late.getByLabel('Code')).toHaveValue(wrong);
	await late.getByLabel('Code').fill(second.code);
	await press(late, 'Go on');
	await expect(late.getByRole('heading', { name: 'Join Small Club' })).toBeVisible();
	await join(late, 'siskin');
	await late.context().clearCookies();
	await enter(second.code);
	await expect(late.getByText('It may be used already, or too old.')).toBeVisible();
	await late.context().close();
});

test('signing in: a wrong password is told in one sentence, the name stays, the right one opens the club', async ({
	browser
}) => {
	const page = await browser.newPage({ viewport: phoneScreen, baseURL: server.url });
	await page.goto('/sign-in');
	await page.getByLabel('Name you sign in with').fill('mill');
	await page.getByLabel('Password').first().fill('three unrelated birds');
	await press(page, 'Sign in');
	await expect(page.getByText('That name and password do not go together.')).toBeVisible();
	await expect(page.getByLabel('Name you sign in with')).toHaveValue('mill');
	await page.getByLabel('Password').first().fill('three unrelated words');
	await press(page, 'Sign in');
	await page.waitForURL((at) => at.pathname.startsWith(`/c/${smallClubId}`));
	await page.close();
});

test('a fact from someone with no part in it waits, and one tap of the keeper makes it count', async ({
	browser
}) => {
	const orchard = await phoneOf(browser, 'orchard');
	const mill = await phoneOf(browser, 'mill');
	await orchard.page.goto(`${orchard.club}/groups/mill-shop`);
	await press(orchard.page, '− Fewer');
	await press(orchard.page, 'one more, females');
	await orchard.page.getByRole('dialog').getByRole('button', { name: 'Save' }).click();
	await everythingShared(orchard.page);
	await orchard.page.goto(`${orchard.club}/today`);
	await expect(seen(orchard.page, 'told by')).toBeVisible();
	await expect(seen(orchard.page, 'It waits for one tap of someone with a part in it.')).toBeVisible();

	await mill.page.goto(`${mill.club}/groups/mill-shop`);
	await expect(seen(mill.page, '2m 2f')).toBeVisible();
	await expect(mill.page.getByText('1 statement is not in these sums.')).toBeVisible();
	await mill.page.getByRole('link', { name: 'History' }).click();
	await press(mill.page, 'So it is');
	await expect(mill.page.getByText('mill keeper says so too')).toBeVisible();
	await mill.page.goBack();
	await expect(seen(mill.page, '2m 1f')).toBeVisible();
	await expect(seen(orchard.page, 'told by')).toHaveCount(0);
});

test('a keeper decides without a signal and keeps the room no longer: told why it does not count and whom to ask', async ({
	browser
}) => {
	const officer = await phoneOf(browser, 'harbour');
	const mill = await phoneOf(browser, 'mill');
	await mill.page.goto(`${mill.club}/groups/mill-shop`);
	await expect(mill.page.getByRole('button', { name: 'Close the tank' })).toBeVisible();
	await mill.context.setOffline(true);
	await press(mill.page, 'Close the tank');
	await mill.page.getByRole('dialog').getByRole('button', { name: 'Close the tank' }).click();
	await expect(mill.page.getByText('1 not shared yet, no signal')).toBeVisible();
	await officer.page.goto(`${officer.club}/people/room/room-mill`);
	await press(officer.page, 'mill keeper no longer keeps it');
	await expect(officer.page.getByText('Nobody keeps it now.')).toBeVisible();

	await mill.context.setOffline(false);
	// The line at the edge says so by itself, and leads there.
	await mill.page.getByRole('link', { name: '1 needs you' }).click();
	const reason = 'Only those who keep the room decide this, or an officer for them.';
	await expect(mill.page.getByRole('heading', { name: 'What you wrote and does not count' })).toBeVisible();
	await expect(mill.page.getByText(`Not allowed. ${reason}`)).toBeVisible();
	await expect(mill.page.getByText('Ask the one who decides, or take it back.')).toBeVisible();
	await hasNoFindings(mill.page);
	await mill.page.goto(`${mill.club}/today`);
	await expect(seen(mill.page, 'shared with the club')).toBeVisible();
	await expect(seen(mill.page, 'not allowed')).toBeVisible();
	await expect(
		mill.page.getByText(`${reason} Ask them to write it. Until then nothing changes.`)
	).toBeVisible();
	await hasNoFindings(mill.page);
	// For everybody the tank is as open as before.
	await officer.page.goto(`${officer.club}/groups/mill-shop`);
	await expect(seen(officer.page, '2m 1f')).toBeVisible();
	await expect(officer.page.getByText('This tank is closed')).toHaveCount(0);
	await officer.page.goto(`${officer.club}/groups/mill-shop/history`);
	await expect(seen(officer.page, 'not allowed')).toBeVisible();
	await officer.page.goto(`${officer.club}/people/room/room-mill`);
	await officer.page.getByLabel('Another keeper').selectOption({ label: 'mill keeper' });
	await press(officer.page, 'Add this keeper');
	await expect(officer.page.getByRole('button', { name: 'mill keeper no longer keeps it' })).toBeVisible();
});

/** What this browser keeps, by name; and whether any of it holds a word of the club. */
async function keptIn(page: Page) {
	return page.evaluate(async () => {
		const databases = (await indexedDB.databases()).map(({ name }) => name ?? '');
		const cached: string[] = [];
		for (const name of await caches.keys()) {
			for (const request of await (await caches.open(name)).keys()) {
				const text = await (await caches.match(request))?.text();
				if (/small-club|Weir cory|room-mill/.test(`${request.url} ${text}`)) cached.push(request.url);
			}
		}
		const people = await new Promise<unknown[]>((resolve, reject) => {
			const opening = indexedDB.open('kithline');
			opening.onerror = () => reject(new Error('not opened'));
			opening.onsuccess = () => {
				const all = opening.result.transaction('people').objectStore('people').getAll();
				all.onsuccess = () => {
					opening.result.close();
					resolve(all.result as unknown[]);
				};
			};
		});
		return { databases, cached, people: people.length, marks: Object.keys(localStorage) };
	});
}

/** Each document that a member may read has a database of its own. */
async function databasesOf(page: Page, member: string): Promise<string[]> {
	const { databases } = await keptIn(page);
	return databases.filter((name) => name.startsWith(`kithline:${smallClubId}:${member}`)).sort();
}

/** A phone behind the gate. */
async function behindGate(browser: Browser): Promise<{ context: BrowserContext; page: Page }> {
	const context = await browser.newContext({ viewport: phoneScreen, baseURL: gateUrl });
	await listen(context);
	return { context, page: await context.newPage() };
}

test('signing out warns of what is not shared, then leaves nothing of the club in this browser, in any tab', async ({
	browser
}) => {
	const { context, page } = await behindGate(browser);
	const club = await signInOn(page, 'orchard');
	await appIsKept(page);
	await page.goto(`${club}/bags/labels`);
	await expect(page.getByText(/^\d+ numbers are kept on this device/)).toBeVisible();
	await everythingShared(page);
	const other = await context.newPage();
	await other.goto(`${club}/lines`);
	await everythingShared(other);
	expect((await keptIn(page)).databases.filter((name) => name.includes(smallClubId)).length).toBeGreaterThan(
		1
	);

	gate.shutSockets();
	await other.goto(`${club}/groups/orchard-wild`);
	await press(other, 'Still have them? Yes');
	await expect(other.getByText(/^1 not shared yet/)).toBeVisible();
	await page.goto('/sign-out');
	await press(page, 'Sign out');
	await expect(page.getByText('One entry on this device is not shared yet.')).toBeVisible();
	await hasNoFindings(page);
	await page.getByRole('link', { name: 'Go back to Small Club and let it share' }).click();
	await expect(page.getByText(/^1 not shared yet/)).toBeVisible();
	gate.openSockets();
	await everythingShared(page);
	gate.shutSockets();
	await other.reload();
	await press(other, 'Still have them? Yes');
	await expect(other.getByText(/^1 not shared yet/)).toBeVisible();

	await page.goto('/sign-out');
	await press(page, 'Sign out');
	await press(page, 'Sign out and lose them');
	await expect(page.getByRole('link', { name: 'Sign in' }).first()).toBeVisible();
	// The other tab has left the club by itself.
	await other.waitForURL(`${gateUrl}/`);
	await expect(other.getByText('Weir cory')).toHaveCount(0);
	const kept = await keptIn(page);
	expect(kept.databases.filter((name) => name !== 'kithline')).toEqual([]);
	expect({ cached: kept.cached, people: kept.people, marks: kept.marks }).toEqual({
		cached: [],
		people: 0,
		marks: []
	});
	gate.openSockets();
	await page.goto(`${club}/lines`);
	await expect(page.getByText('You are not signed in to this club on this device.')).toBeVisible();
	await context.close();
});

test('without a signal nobody is signed out by half', async ({ browser }) => {
	const { context, page } = await behindGate(browser);
	const club = await signInOn(page, 'orchard');
	await appIsKept(page);
	await everythingShared(page);
	await page.goto('/sign-out');
	await context.setOffline(true);
	await press(page, 'Sign out');
	await expect(
		page.getByText('There is no signal, so you are still signed in and nothing was removed.')
	).toBeVisible();
	await hasNoFindings(page);
	await context.setOffline(false);
	await page.goto(`${club}/lines`);
	await expect(page.getByText('Weir cory').filter({ visible: true }).first()).toBeVisible();
	await context.close();
});

test('two people on one tablet: neither speaks for the other, reads the other’s room, or loses a word', async ({
	browser
}) => {
	const { context, page } = await behindGate(browser);
	const club = await signInOn(page, 'harbour');
	await appIsKept(page);
	await everythingShared(page);
	gate.shutSockets();
	await page.goto(`${club}/room`);
	await expect(page.getByRole('heading', { name: 'harbour room', level: 1 })).toBeVisible();
	const now = momentWritten(new Date());
	const [own] = await write(page, [[checkedIn('room-harbour', 'weir-cory', now, 'yes', { note: 'hers' })]]);
	await expect(page.getByText(/^1 not shared yet/)).toBeVisible();

	// The second one signs in while the first one's tab stays open.
	const tab = await context.newPage();
	await signInOn(tab, 'mill');
	await expect(tab.getByText(/not shared yet/)).toHaveCount(0);
	await tab.goto(`${club}/today`);
	await expect(tab.getByText('Here stands what you write today')).toBeVisible();
	const hers = await databasesOf(page, 'harbour');
	gate.openSockets();
	await everythingShared(tab);
	await page.bringToFront();
	await expect(page.getByText('You are signed out on this device.')).toBeVisible();
	expect((await statusOf(page)).unshared.map(({ id }) => id)).toEqual([own!.id]);
	// Nothing that only the other one may read has come to her side of the tablet.
	expect(await databasesOf(page, 'harbour')).toEqual(hers);
	await page.close();

	await tab.goto('/sign-out');
	await press(tab, 'Sign out');
	await expect(tab.getByRole('link', { name: 'Sign in' }).first()).toBeVisible();
	await signInOn(tab, 'harbour');
	await everythingShared(tab);
	const told = await ask(tab, 'entriesOf', { ids: [own!.id] });
	expect(told.map(({ entry, view }) => [entry.by, view.verdict.name])).toEqual([['harbour', 'counts']]);
	await context.close();
});
