/** Two servers for one spec: pages, and a ledger that can be killed, set back and started again. */
import { copyFileSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import { startServer, type RunningServer } from '#tests/helpers/startServer.ts';
import { until } from '#tests/helpers/until.ts';

export const club = 'pond';

export class SyncHarness {
	readonly #folder = mkdtempSync(join(tmpdir(), 'kithline-sync-'));
	readonly #ports: { readonly pages: number; readonly ledger: number };
	#pages: RunningServer | undefined;
	#ledger: RunningServer | undefined;
	#database = 0;

	constructor(ports: { readonly pages: number; readonly ledger: number }) {
		this.#ports = ports;
	}

	get url(): string {
		return `http://127.0.0.1:${this.#ports.pages}/`;
	}

	async start(): Promise<void> {
		const { pages, ledger } = this.#ports;
		this.#pages = await startServer({
			node: [join(import.meta.dirname, 'pageServer.ts'), String(pages), String(ledger), join(this.#folder, 'page')],
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

	get ledgerOutput(): string {
		return this.#ledger?.output() ?? '';
	}

	async stop(): Promise<void> {
		await this.stopLedger();
		await this.#pages?.stop();
		rmSync(this.#folder, { recursive: true, force: true });
	}

	async control<Answer>(command: { what: string; [more: string]: unknown }): Promise<Answer> {
		const answer = await fetch(`http://127.0.0.1:${this.#ports.ledger}/control`, {
			method: 'POST',
			body: JSON.stringify(command)
		});
		if (!answer.ok) throw new Error(`control ${command.what} answered ${answer.status}: ${this.ledgerOutput}`);
		return (await answer.json()) as Answer;
	}

	/** Ids that the club has of those asked, by where they are. */
	async find(ids: readonly string[]): Promise<Map<string, string>> {
		const found = await this.control<{ id: string; where: string }[]>({ what: 'find', ids });
		return new Map(found.map(({ id, where }) => [id, where]));
	}

	async backup(name: string): Promise<void> {
		await this.control({ what: 'backup', to: join(this.#folder, name) });
	}

	/** An operator copies an old database file back. */
	async restore(name: string): Promise<void> {
		await this.stopLedger();
		for (const end of ['-wal', '-shm']) rmSync(this.#file + end, { force: true });
		copyFileSync(join(this.#folder, name), this.#file);
		await this.startLedger();
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
		throw new Error(`${String(error)}; status ${await page.evaluate(() => JSON.stringify(window.club.status))}`);
	});
}
