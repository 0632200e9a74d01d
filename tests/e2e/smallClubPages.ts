/** What the specs on the small club's bags and exchanges share. */
import { expect, type Browser, type Locator, type Page } from '@playwright/test';
import { join } from 'node:path';
import { axeFindings } from '#tests/helpers/axeFindings.ts';
import { startServer, type RunningServer } from '#tests/helpers/startServer.ts';

export type Keeper = 'harbour' | 'mill' | 'orchard';

export function startSmallClub(port: number): Promise<RunningServer> {
	return startServer({
		node: ['tests/e2e/smallClub.ts'],
		cwd: join(import.meta.dirname, '../..'),
		env: { PORT: String(port) },
		readyUrl: `http://localhost:${port}/healthz`
	});
}

/** A keeper's phone of its own, signed in, the record there. @returns the page and the club's address */
export async function phoneOf(
	browser: Browser,
	url: string,
	keeper: Keeper,
	colorScheme: 'light' | 'dark' = 'light'
) {
	const context = await browser.newContext({
		viewport: { width: 390, height: 844 },
		baseURL: url,
		colorScheme
	});
	const page = await context.newPage();
	await page.goto('/sign-in');
	await page.getByLabel(/name/i).first().fill(keeper);
	await page
		.getByLabel(/password/i)
		.first()
		.fill('three unrelated words');
	await page.getByRole('button', { name: 'Sign in' }).click();
	await page.waitForURL((at) => at.pathname.startsWith('/c/'));
	const club = new URL(page.url()).pathname.split('/').slice(0, 3).join('/');
	await page.goto(`${club}/bags`);
	await expect(page.getByRole('heading', { name: 'Bags', exact: true })).toBeVisible();
	return { page, club };
}

/** The number on a label, key by key, in the way a thumb does it. */
export async function typeNumber(page: Page, number: string): Promise<void> {
	for (const key of number) await page.getByRole('button', { name: key, exact: true }).click();
}

/** A word where it can be seen: at a desk a list stands beside the page, on a phone it is there but hidden. */
export function seen(page: Page, text: string): Locator {
	return page.getByText(text, { exact: true }).filter({ visible: true }).first();
}

export async function hasNoFindings(page: Page): Promise<void> {
	expect(await axeFindings(page)).toEqual([]);
}
