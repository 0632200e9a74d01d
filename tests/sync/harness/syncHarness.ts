/** Two servers for one spec: pages, and a ledger that can be killed, set back and started again. */
import { copyFileSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, BrowserContext, Page } from '@playwright/test';
import { startServer, type RunningServer } from '#tests/helpers/startServer.ts';
import { FaultyWire } from './faultyWire.ts';
import { until } from '#tests/helpers/until.ts';

export const club = 'pond';

export class SyncHarness {
	readonly #folder = mkdtempSync(join(tmpdir(), 'kithline-sync-'));
	readonly #ports: { readonly pages: number; readonly wire: number; readonly ledger: number };
	#pages: RunningServer | undefined;
	#ledger: RunningServer | undefined;
	#database = 0;
	/** Between pages and ledger. */
	readonly wire: FaultyWire;

	/** @param firstPort of three */
	constructor(firstPort: number) {
		this.#ports = { pages: firstPort, wire: firstPort + 1, ledger: firstPort + 2 };
		this.wire = new FaultyWire(this.#ports.ledger);
	}

	get url(): string {
		return `http://127.0.0.1:${this.#ports.pages}/`;
	}

	async start(): Promise<void> {
		const { pages, wire } = this.#ports;
		await this.wire.listen(wire);
		this.#pages = await startServer({
			node: [
				join(import.meta.dirname, 'pageServer.ts'),
				String(pages),
				String(wire),
				join(this.#folder, 'page')
			],
			readyUrl: this.url
		});
	}

	/** A club with nothing in it. */
	async newClub(): Promise<void> {
		await this.stopLedger();
		this.#database++;
		await this.startLedger();
	}

	async startLedger(): Promise<void> {
		const { ledger } = this.#ports;
		this.#ledger = await startServer({
			node: [join(import.meta.dirname, 'ledgerServer.ts'), String(ledger), this.#file, club],
			readyUrl: `http://127.0.0.1:${ledger}/healthz`
		});
	}

	async stopLedger(signal: NodeJS.Signals = 'SIGTERM'): Promise<void> {
		await this.#ledger?.stop(signal);
		this.#ledger = undefined;
	}

	get ledgerUrl(): string {
		return `http://127.0.0.1:${this.#ports.ledger}`;
	}

	get ledgerOutput(): string {
		return this.#ledger?.output() ?? '';
	}

	async stop(): Promise<void> {
		await this.stopLedger();
		await this.#pages?.stop();
		await this.wire.close();
		rmSync(this.#folder, { recursive: true, force: true });
	}

	async control<Answer>(command: { what: string; [more: string]: unknown }): Promise<Answer> {
		const answer = await fetch(`${this.ledgerUrl}/control`, {
			method: 'POST',
			body: JSON.stringify(command)
		});
		if (!answer.ok)
			throw new Error(`control ${command.what} answered ${answer.status}: ${this.ledgerOutput}`);
		return (await answer.json()) as Answer;
	}

	/** Ids that the club has of those asked, by where they are. */
	async find(ids: readonly string[]): Promise<Map<string, string>> {
		const found = await this.control<{ id: string; where: string }[]>({ what: 'find', ids });
		return new Map(found.map(({ id, where }) => [id, where]));
	}

	async backup(name: string): Promise<void> {
		await this.control({ what: 'backup', to: this.#backup(name) });
	}

	/** An operator copies an old database file back. */
	async restore(name: string): Promise<void> {
		await this.stopLedger();
		for (const end of ['-wal', '-shm']) rmSync(this.#file + end, { force: true });
		copyFileSync(this.#backup(name), this.#file);
		await this.startLedger();
	}

	#backup(name: string): string {
		return join(this.#folder, `${name}-${this.#database}.sqlite`);
	}

	get #file(): string {
		return join(this.#folder, `club-${this.#database}.sqlite`);
	}
}

/** Opens the harness page as one member's device. */
export async function openDevice(page: Page, url: string, member: string, device: string): Promise<void> {
	await page.goto(url);
	await page.waitForFunction(() => 'harness' in window);
	await page.evaluate(([name, m, d]) => window.harness.open(name, m, d), [club, member, device] as const);
}

export const write = (page: Page, ...texts: string[]): Promise<string[]> =>
	page.evaluate((given) => window.harness.write(given), texts);

export const notes = (page: Page): Promise<string[]> => page.evaluate(() => window.harness.notes());

export async function seesNotes(page: Page, expected: readonly string[]): Promise<void> {
	const wanted = JSON.stringify([...expected].sort());
	let seen = '';
	await until(
		`the page to see ${wanted}`,
		async () => (seen = JSON.stringify(await notes(page))) === wanted,
		20_000
	).catch((error: unknown) => {
		throw new Error(`${String(error)}; it sees ${seen}`);
	});
}

/** Waits until nothing is left to share and the page is connected. */
export async function allShared(page: Page, timeoutMs = 20_000): Promise<void> {
	await until(
		'everything to be shared',
		() => page.evaluate(() => window.club.status.connected && window.club.status.unshared.length === 0),
		timeoutMs
	).catch(async (error: unknown) => {
		throw new Error(
			`${String(error)}; status ${await page.evaluate(() => JSON.stringify(window.club.status))}`
		);
	});
}

const contexts: BrowserContext[] = [];

/** After each test: a page left open would bring its entries into the next test's club. */
export async function closeDevices(): Promise<void> {
	for (const context of contexts.splice(0)) await context.close();
}

/** One more device: a browser profile of its own. */
export async function newDevice(
	browser: Browser,
	url: string,
	member: string,
	device: string
): Promise<Page> {
	const context = await browser.newContext();
	contexts.push(context);
	const page = await context.newPage();
	await openDevice(page, url, member, device);
	return page;
}

export async function isConnected(page: Page, connected: boolean): Promise<void> {
	await until(`the page to be ${connected ? 'connected' : 'cut off'}`, () =>
		page.evaluate((wanted) => window.club.status.connected === wanted, connected)
	);
}

export const sharingOf = (page: Page, id: string): Promise<string> =>
	page.evaluate((asked) => window.club.sharingOf(asked), id);

export const unshared = (
	page: Page
): Promise<{ id: string; state: string; sending: boolean; reason?: string }[]> =>
	page.evaluate(() => [...window.club.status.unshared]);

export const problemOf = (page: Page): Promise<string | null> =>
	page.evaluate(() => window.club.status.problem?.code ?? null);
