/**
 * A phone with the built app in a real browser: what a person does there, and the app's own way to its club, so that a
 * test can write what a screen would write and ask what a screen would ask.
 */
import { expect, type Browser, type BrowserContext, type Page } from '@playwright/test';
import type { Draft, Entry } from '#records/entry.ts';
import { statusAtStart, type SyncStatus } from '#sync/syncStatus.ts';
import type { QuestionAnswer, QuestionArgs, QuestionName } from '#workers/questions.ts';
import { until } from './until.ts';

declare global {
	interface Window {
		heardClub: {
			readonly call: (name: string, args: unknown) => Promise<unknown>;
			readonly status: () => SyncStatus | null;
		};
		/** Ids that the page has just begun to call shared. */
		noteShared(ids: readonly string[]): void;
	}
}

export const phoneScreen = { width: 390, height: 844 };

/** A time zone in which it is about noon now, so that no test's day ends while it runs. */
export function zoneAtNoon(now = new Date()): string {
	// The sign of these zones is turned round: Etc/GMT-3 is three hours ahead.
	const ahead = 12 - now.getUTCHours();
	return `Etc/GMT${ahead > 0 ? '-' : '+'}${Math.abs(ahead)}`;
}

export interface AppPhone {
	readonly context: BrowserContext;
	readonly page: Page;
	/** The club's address: `/c/small-club`. */
	readonly club: string;
	/** Every entry that this phone wrote and then called shared with the club, over all its reloads. */
	readonly calledShared: ReadonlySet<string>;
}

/** Must be called before the first page of the context is opened. @returns the entries called shared, growing */
export async function listen(context: BrowserContext): Promise<Set<string>> {
	const calledShared = new Set<string>();
	await context.exposeFunction('noteShared', (ids: readonly string[]) =>
		ids.forEach((id) => calledShared.add(id))
	);
	await context.addInitScript(hearClub);
	return calledShared;
}

/** Runs in the page: follows the app's worker beside the app. */
function hearClub(): void {
	const waiting = new Map<number, { resolve(value: unknown): void; reject(error: Error): void }>();
	let worker: Worker | undefined;
	let status: SyncStatus | null = null;
	let own = new Set<string>();
	// Below 0, so that the app takes no answer for its own.
	let calls = 0;
	globalThis.Worker = new Proxy(Worker, {
		construct(target, given: ConstructorParameters<typeof Worker>) {
			const made = new target(...given);
			if (given[1]?.name === 'club') {
				worker = made;
				made.addEventListener('message', ({ data }: MessageEvent) => hear(data));
			}
			return made;
		}
	});
	function hear(message: {
		type: string;
		call: number;
		value: unknown;
		message: string;
		status: SyncStatus;
	}) {
		if (message.type === 'result') waiting.get(message.call)?.resolve(message.value);
		if (message.type === 'failure') waiting.get(message.call)?.reject(new Error(message.message));
		if (message.type !== 'status') return;
		status = message.status;
		const left = new Set(status.unshared.map(({ id }) => id));
		const shared = [...own].filter((id) => !left.has(id));
		own = left;
		if (shared.length) window.noteShared(shared);
	}
	window.heardClub = {
		status: () => status,
		call: (name, args) =>
			new Promise((resolve, reject) => {
				if (!worker) return reject(new Error('the app has not opened a club'));
				const call = --calls;
				waiting.set(call, { resolve, reject });
				worker.postMessage({ type: 'call', call, name, args });
			})
	};
}

/** Signs in on a page of the app and waits for the club's record. @returns the club's address */
export async function signInOn(
	page: Page,
	keeper: string,
	password = 'three unrelated words'
): Promise<string> {
	await page.goto('/sign-in');
	await page.getByLabel('Name you sign in with').fill(keeper);
	await page.getByLabel('Password').first().fill(password);
	await page.getByRole('button', { name: 'Sign in' }).click();
	await page.waitForURL((at) => at.pathname.startsWith('/c/'));
	return new URL(page.url()).pathname.split('/').slice(0, 3).join('/');
}

/** A phone of a keeper's own, signed in, the app and the record kept on it: ready to lose its signal. */
export async function newPhone(browser: Browser, url: string, keeper: string): Promise<AppPhone> {
	const context = await browser.newContext({ viewport: phoneScreen, baseURL: url });
	const calledShared = await listen(context);
	const page = await context.newPage();
	const club = await signInOn(page, keeper);
	await appIsKept(page);
	await everythingShared(page);
	return { context, page, club, calledShared };
}

/** The app's files are kept, so that it opens without a network. */
export async function appIsKept(page: Page): Promise<void> {
	await until('the app to be kept on the device', () =>
		page.evaluate(() => navigator.serviceWorker.controller !== null)
	);
}

/** The line at the edge says so, as a person reads it. */
export async function everythingShared(page: Page, timeoutMs = 30_000): Promise<void> {
	await expect(page.getByText('everything shared')).toBeVisible({ timeout: timeoutMs });
}

export function ask<Name extends QuestionName>(
	page: Page,
	name: Name,
	args: QuestionArgs<Name>
): Promise<QuestionAnswer<Name>> {
	return page.evaluate(([asked, given]) => window.heardClub.call('ask', { name: asked, args: given }), [
		name,
		args
	] as const) as Promise<QuestionAnswer<Name>>;
}

/** Writes in the way the screens do, one writing after the other; all are safe on the device when it returns. */
export function write(page: Page, writings: readonly (readonly Draft[])[]): Promise<Entry[]> {
	return page.evaluate(async (given) => {
		const written: Entry[] = [];
		for (const drafts of given) {
			const entries = await window.heardClub.call('write', { drafts, audience: 'club' });
			written.push(...(entries as Entry[]));
		}
		return written;
	}, writings);
}

/** What the app last heard of its sharing. */
export async function statusOf(page: Page): Promise<SyncStatus> {
	return (await page.evaluate(() => window.heardClub.status())) ?? statusAtStart;
}
