/**
 * A line's family drawing, kinship table, figures and pairing advice: on a phone and at a desk, by day and night, by
 * keyboard, without a signal, printed. Three rooms of founders: two wild, one from one shop brood.
 */
import { expect, test, type Page } from '@playwright/test';
import { hasNoFindings, phoneOf, startSmallClub } from './smallClubPages.ts';
import type { RunningServer } from '#tests/helpers/startServer.ts';

const port = 4401;
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
const symbols = () => page.locator('[data-group]');
const fitsWidth = () => page.evaluate(() => document.documentElement.scrollWidth <= innerWidth);

test('the line leads to its drawing: every group is there, as a symbol and as a row of the table', async () => {
	await page.goto(`${club}${line}`);
	await page.getByRole('link', { name: 'Family drawing' }).filter({ visible: true }).click();
	await expect(heading('Family drawing')).toBeVisible();
	await expect(symbols()).toHaveCount(3);
	const rows = page.getByRole('table').getByRole('row');
	await expect(rows).toHaveCount(4);
	await expect(rows.filter({ hasText: 'harbour room' })).toContainText('First fish: wild.');
	// Each row stands as a card on a phone: nothing is to be moved sideways.
	const table = page.getByRole('region', { name: 'The same as a table, oldest first' });
	expect(await table.evaluate((frame) => frame.scrollWidth <= frame.clientWidth)).toBe(true);
	await expect.poll(fitsWidth).toBe(true);
	await hasNoFindings(page);
});

test('by keyboard: one stop of the tab key, arrows from group to group, Enter opens one', async () => {
	await symbols().first().focus();
	const first = await page.evaluate(() => document.activeElement?.getAttribute('data-group'));
	await expect(page.locator('[data-group][tabindex="0"]')).toHaveCount(1);
	const seen = new Set([first]);
	for (const key of ['ArrowRight', 'ArrowDown', 'ArrowLeft', 'ArrowUp', 'End', 'Home']) {
		await page.keyboard.press(key);
		seen.add(await page.evaluate(() => document.activeElement?.getAttribute('data-group')));
	}
	expect(seen.size).toBeGreaterThan(1);
	await page.keyboard.press('Enter');
	await expect(page.getByRole('dialog').getByText('Open this group')).toBeVisible();
	await hasNoFindings(page);
	await page.keyboard.press('Escape');
});

test('larger and smaller, the whole, the key, and a group that is searched for', async () => {
	const width = () => page.locator('svg[role="group"]').evaluate((svg) => svg.getBoundingClientRect().width);
	const before = await width();
	await page.getByRole('button', { name: 'Larger' }).click();
	await expect.poll(width).toBeGreaterThan(before);
	await page.getByRole('button', { name: 'Whole' }).click();
	await page.getByRole('button', { name: 'Key' }).click();
	await expect(page.getByRole('dialog').getByText('dashed line: possible, not certain')).toBeVisible();
	await page.keyboard.press('Escape');
	await page.getByRole('button', { name: 'Find' }).click();
	await page.getByRole('searchbox').fill('orchard');
	await page.getByRole('dialog').getByRole('button', { name: /^Show/ }).click();
	await expect(page.getByRole('dialog')).toHaveCount(0);
});

test('only the relatives of one group are drawn, and all of them again', async () => {
	await symbols().first().press('Enter');
	await page.getByRole('button', { name: 'Draw only its forebears and young' }).click();
	await expect(symbols()).toHaveCount(1);
	await page.getByRole('button', { name: 'Draw the whole line' }).click();
	await expect(symbols()).toHaveCount(3);
});

test('printed, the drawing is one page with its key and without the table', async () => {
	await page.emulateMedia({ media: 'print' });
	await expect(page.getByText('dashed line: possible, not certain')).toBeVisible();
	await expect(page.getByRole('table')).toBeHidden();
	const pdf = await page.pdf({ preferCSSPageSize: true });
	expect(pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)).toHaveLength(1);
	await page.emulateMedia({ media: 'screen' });
});

test('who is related to whom: a sign and a figure in each cell, why in words on pressing it', async () => {
	await page.goto(`${club}${line}`);
	await page.getByRole('link', { name: 'Who is related to whom' }).filter({ visible: true }).click();
	await expect(heading('Who is related to whom')).toBeVisible();
	// Brothers and sisters of one shop brood: 0.25 (Wright 1922); wild ones of two rooms share nothing.
	const own = page.getByRole('button', { name: 'S .25: 2 and 2 as brother and sister' });
	await expect(own).toBeVisible();
	await expect(page.getByRole('button', { name: /^– : 1 and 3/ })).toHaveCount(1);
	await hasNoFindings(page);
	await own.focus();
	await page.keyboard.press('ArrowRight');
	await expect(page.getByRole('button', { name: /: 2 and 3/ })).toBeFocused();
	await own.click();
	await expect(page.getByRole('dialog').getByText('As close as brother and sister: 0.25.')).toBeVisible();
	await hasNoFindings(page);
	await page.keyboard.press('Escape');
	await page.getByText('Only some rooms').click();
	const room = page.getByRole('button', { name: /^mill room/ });
	if (!(await room.isVisible())) await page.getByText('Only some rooms').click();
	await room.click();
	await expect(page.locator('[data-cell]')).toHaveCount(1);
	await expect.poll(fitsWidth).toBe(true);
});

test('the figures: words first, then numbers, and the terms only where one asks how', async () => {
	await page.goto(`${club}${line}/figures`);
	await expect(page.getByText(/of the founders’ variety left/).first()).toBeVisible();
	const term = page.getByText(/^Gene diversity/);
	await expect(term).toBeHidden();
	await page.getByText('How this was computed').click();
	await expect(term).toBeVisible();
	await expect(page.getByRole('img', { name: /if nothing changes/ })).toBeVisible();
	await expect.poll(fitsWidth).toBe(true);
	await hasNoFindings(page);
});

const ends = () => page.getByText(/in 19 of 20 tries between/).first();
const players = () => page.workers().filter((worker) => worker.url().includes('taskWorker'));
const toFigures = async () => {
	await page.getByRole('link', { name: 'Weir cory' }).filter({ visible: true }).first().click();
	await page
		.getByRole('link', { name: 'How varied it still is', exact: true })
		.filter({ visible: true })
		.click();
	await expect(heading('How varied it still is')).toBeVisible();
};
/** The idle worker is used again: each of its words then takes a while, as on a slow phone with a large line. */
const slowDown = async () => {
	await expect.poll(() => players().length).toBe(1);
	await players()[0]!.evaluate(() => {
		const post = globalThis.postMessage.bind(globalThis) as (message: unknown) => void;
		Object.assign(globalThis, {
			postMessage(message: unknown) {
				for (const until = performance.now() + 80; performance.now() < until;);
				post(message);
			}
		});
	});
};

test('chance is played beside the page: ends in words and in the table, the same at each look', async () => {
	await page.goto(`${club}${line}/figures`);
	await expect(ends()).toBeVisible();
	await expect(page.getByRole('columnheader', { name: 'in 19 of 20 tries of chance' })).toBeVisible();
	await expect(page.getByText(/different genes that the founders brought/)).toBeVisible();
	await expect(page.getByRole('progressbar')).toHaveCount(0);
	const between = (await ends().textContent()) ?? '';
	await page.reload();
	await expect(ends()).toHaveText(between);
	await hasNoFindings(page);
});

test('the play tells how far it is, can be stopped and started again, and ends with the page', async () => {
	await expect(page.getByRole('progressbar')).toHaveCount(0);
	await slowDown();
	await toFigures();
	await expect(page.getByText(/Playing chance: \d+ of 400 times played/)).toBeVisible();
	await hasNoFindings(page);
	await page.getByRole('button', { name: 'Stop' }).first().click();
	await expect(page.getByText(/^Stopped after \d+ of 400 times played/)).toBeVisible();
	await page.getByRole('button', { name: 'Start again' }).click();
	await expect(ends()).toBeVisible();
	await expect(page.getByRole('progressbar')).toHaveCount(0);
	await slowDown();
	await toFigures();
	await expect(page.getByRole('progressbar').first()).toBeVisible();
	await page.getByRole('link', { name: 'Weir cory' }).filter({ visible: true }).first().click();
	await expect(heading('Weir cory')).toBeVisible();
	await expect.poll(() => players().length).toBe(0);
});

test('whom to pair: from the room, each pair with its sentence', async () => {
	await page.goto(`${club}/rooms/room-mill`);
	await page.getByRole('link', { name: 'Whom to pair' }).click();
	await expect(heading('Whom to pair')).toBeVisible();
	await expect(page.getByText('As close as brother and sister: 0.25.')).toBeVisible();
	await expect(page.getByText('All that can be paired here are close.')).toBeVisible();
	await hasNoFindings(page);
});

test('at night and at a desk, and without a signal', async () => {
	await page.emulateMedia({ colorScheme: 'dark' });
	await page.setViewportSize({ width: 1440, height: 900 });
	await page.goto(`${club}${line}/family`);
	await expect(symbols()).toHaveCount(3);
	await page.context().setOffline(true);
	for (const part of ['kinship', 'figures', 'family'] as const) {
		await page.getByRole('link', { name: 'Weir cory' }).filter({ visible: true }).first().click();
		const names = {
			kinship: 'Who is related to whom',
			figures: 'How varied it still is',
			family: 'Family drawing'
		};
		await page.getByRole('link', { name: names[part] }).filter({ visible: true }).click();
		await expect(heading(names[part])).toBeVisible();
		if (part === 'figures') await expect(ends()).toBeVisible();
		await hasNoFindings(page);
	}
	await expect(symbols()).toHaveCount(3);
	await page.context().setOffline(false);
});

test('a line that is not on this device says so', async () => {
	for (const part of ['kinship', 'figures', 'family'] as const) {
		await page.goto(`${club}/lines/no-such-line/${part}`);
		await expect(page.getByText('This device has not heard of this line yet.')).toBeVisible();
	}
});
