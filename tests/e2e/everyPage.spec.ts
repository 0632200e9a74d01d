/** Every page there is, full and empty: no findings of axe by day and night, phone and desk, nothing cut, nothing thrown. */
import { expect, test, type Page } from '@playwright/test';
import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { axeFindings } from '#tests/helpers/axeFindings.ts';
import { startServer, type RunningServer } from '#tests/helpers/startServer.ts';
import { until } from '#tests/helpers/until.ts';

const port = 4398;
const root = join(import.meta.dirname, '../..');
const url = `http://localhost:${port}`;
const phone = { width: 390, height: 844 };
const desk = { width: 1280, height: 800 };

// A field that is not there should not use up the whole test.
test.use({ actionTimeout: 15_000 });

/** The address patterns of all pages, from the files: a new page without an address below fails this test. */
const patterns = readdirSync(join(root, 'src/routes'), { recursive: true, encoding: 'utf8' })
	.filter((file) => /\+page(@[^/]*)?\.svelte$/.test(file))
	.map((file) => `/${file.replace(/\(account\)\//, '').replace(/\/?\+page(@[^/]*)?\.svelte$/, '')}`);
/** Looked at by the gallery's own spec; the frame that the service worker keeps, empty until it opens a club. */
const elsewhere = ['/dev/gallery', '/shell'];

function start(node: string[], data?: string): Promise<RunningServer> {
	const env = { PORT: String(port), ...(data && { KITHLINE_DATA: data }) };
	return startServer({ node, cwd: root, env, readyUrl: `${url}/healthz` });
}

/** Gathers what a page throws or complains of while it is open. */
function complaintsOf(page: Page): string[] {
	const complaints: string[] = [];
	page.on('console', (message) => {
		if (['error', 'warning'].includes(message.type()))
			complaints.push(`${page.url()}: ${message.text()} ${message.location().url}`);
	});
	page.on('pageerror', (error) => complaints.push(`${page.url()}: ${error.message}`));
	return complaints;
}

async function opened(page: Page, address: string): Promise<void> {
	await page.goto(url + address);
	await expect(page.locator('h1:visible').first(), address).toBeVisible();
	await expect(page.getByText(/^Opening the club’s record|is on its way to this device/)).toHaveCount(0);
}

/** On the page as it stands. @returns what is wrong, in words */
async function wrongHere(page: Page, screens: Readonly<Record<string, typeof phone>>): Promise<string[]> {
	const found: string[] = [];
	for (const [screen, viewport] of Object.entries(screens)) {
		await page.setViewportSize(viewport);
		found.push(...(await badlyLaidOut(page)).map((words) => `${screen}: ${words}`));
		await page.emulateMedia({ colorScheme: 'light' });
		const day = await axeFindings(page);
		await page.emulateMedia({ colorScheme: 'dark' });
		// Only colours change at night.
		const night = await axeFindings(page, { rules: ['color-contrast'] });
		found.push(...[...day, ...night].map((words) => `${screen}: ${words}`));
		// The browser's own reading of names, beside the one of axe.
		const outline = await page.locator('body').ariaSnapshot();
		const nameless = /^\s*- (?:button|link|textbox|searchbox|checkbox|radio|combobox|spinbutton)(?! ").*$/gm;
		for (const [line] of outline.matchAll(nameless)) found.push(`${screen}: no name: ${line.trim()}`);
	}
	return found;
}

/** Wider than the screen, a title squeezed to a column of letters, or a target under 48 px on a phone. */
function badlyLaidOut(page: Page): Promise<string[]> {
	return page.evaluate(() => {
		const wider = document.documentElement.scrollWidth - innerWidth;
		const seen = (all: string) =>
			[...document.querySelectorAll(all)].filter((each) =>
				each.checkVisibility({ visibilityProperty: true, opacityProperty: true })
			);
		const squeezed = seen('h1').filter(
			(each) => each.getBoundingClientRect().height > 6 * parseFloat(getComputedStyle(each).fontSize)
		);
		// The link of a list row reaches over the whole row, a mark's label over the mark.
		const small = seen('button, select, summary, label:has(input), input:not([type=hidden])')
			.map((each) => (each.matches('.whole') ? each.closest('li') : each.closest('label')) ?? each)
			.filter((each) => innerWidth < 960 && each.getBoundingClientRect().height < 47.5);
		return [
			...(wider > 0 ? [`${wider} px wider than the screen`] : []),
			...squeezed.map((each) => `squeezed: ${each.textContent}`),
			...small.map(
				(each) => `only ${each.getBoundingClientRect().height} px: ${each.outerHTML.slice(0, 160)}`
			)
		];
	});
}

async function lookAtAll(
	page: Page,
	addresses: Iterable<string>,
	screens: Readonly<Record<string, typeof phone>> = { phone, desk }
): Promise<void> {
	for (const address of addresses) {
		await opened(page, address);
		expect.soft(await wrongHere(page, screens), address).toEqual([]);
	}
}

async function signIn(page: Page, name: string, password: string): Promise<string> {
	await page.goto(`${url}/sign-in`);
	await page.getByLabel('Name you sign in with').fill(name);
	await page.getByLabel('Password', { exact: true }).fill(password);
	await page.getByRole('button', { name: 'Sign in' }).click();
	await page.waitForURL((at) => at.pathname.startsWith('/c/'));
	return new URL(page.url()).pathname.split('/').slice(0, 3).join('/');
}

/** The last part of the first link below an address that leads to one thing. */
async function idIn(page: Page, address: string, place: string): Promise<string> {
	await opened(page, address);
	const link = page.locator(`main a[href*="/${place}/"]:not([href*="/new"])`).first();
	return (await link.getAttribute('href'))?.split(`/${place}/`)[1]?.split('/')[0] ?? '';
}

test('every page of a full club, for the officer who sees the most', async ({ page }) => {
	test.setTimeout(300_000);
	const server = await start(['server/commands/demo.ts']);
	try {
		const complaints = complaintsOf(page);
		const [, name = '', password = ''] =
			/\(officer.*name "([^"]+)", password "([^"]+)"/.exec(server.output()) ?? [];
		await lookAtAll(page, ['/', '/sign-in', '/invitation', '/invitation/none', '/sign-in-link/none']);
		const club = await signIn(page, name, password);
		const room = await idIn(page, `${club}/rooms`, 'rooms');
		const ids: Record<string, string> = {
			club: club.split('/')[2] ?? '',
			line: await idIn(page, `${club}/lines`, 'lines'),
			bag: await idIn(page, `${club}/bags`, 'bags'),
			exchange: await idIn(page, `${club}/exchanges`, 'exchanges'),
			meeting: await idIn(page, `${club}/meetings`, 'meetings'),
			room,
			member: await idIn(page, `${club}/rooms/${room}`, 'members'),
			group: await idIn(page, `${club}/rooms/${room}`, 'groups'),
			spawn: await idIn(page, `${club}/rooms/${room}`, 'spawns'),
			// No plan was sent yet: the page of one that this device has not heard of. plan.spec.ts looks at a sent one.
			plan: 'none'
		};
		expect(Object.entries(ids).filter(([, id]) => !id)).toEqual([]);
		const addresses = patterns
			.filter((pattern) => !pattern.includes('[token]') && !elsewhere.includes(pattern))
			.map((pattern) => pattern.replace(/\[(\w+)\]/g, (_, param: string) => ids[param] ?? `[${param}]`))
			// Signing in is shown to nobody who is signed in, and was looked at above.
			.filter((address) => !['/sign-in', '/invitation'].includes(address));
		await lookAtAll(page, addresses);
		expect(complaints).toEqual([]);
	} finally {
		await server.stop();
	}
});

test('the first pages of a club that has just opened its record', async ({ page }) => {
	test.setTimeout(180_000);
	const data = mkdtempSync(join(tmpdir(), 'kithline-empty-'));
	const server = await start(['server/main.ts'], data);
	try {
		const complaints = complaintsOf(page);
		const printed = () => /\/first-officer\/\S+/.exec(server.output())?.[0] ?? '';
		await until('the link of the first officer', () => printed() !== '');
		const link = printed();
		await lookAtAll(page, ['/', link], { phone });
		await page.getByLabel('Name of the club').fill('Weir Club');
		await page.getByLabel('Name or handle').fill('Ada');
		await page.getByLabel('Name to sign in with').fill('ada');
		await page.getByLabel('A password').fill('three unrelated words');
		await page.getByRole('button', { name: 'Open the club’s record' }).click();
		await page.waitForURL((at) => at.pathname.startsWith('/c/'));
		const club = new URL(page.url()).pathname.split('/').slice(0, 3).join('/');
		const addresses = patterns
			.filter((pattern) => pattern.startsWith('/c/[club]') && !/\[club\].*\[/.test(pattern))
			.map((pattern) => pattern.replace('/c/[club]', club));
		await lookAtAll(page, addresses, { phone });
		expect(complaints).toEqual([]);
	} finally {
		await server.stop();
		rmSync(data, { recursive: true, force: true });
	}
});
