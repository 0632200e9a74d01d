/** The small club served by the real process, on one folder of data through crashes and restarts. */
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openDatabase } from '#server/storage/database.ts';
import { createSqliteStorage } from '#server/storage/sqlite.ts';
import { startServer, type RunningServer } from './startServer.ts';

export const smallClubId = 'small-club';

export class ClubServer {
	readonly url: string;
	readonly #port: number;
	readonly #folder = mkdtempSync(join(tmpdir(), 'kithline-club-'));
	#running: RunningServer | undefined;

	constructor(port: number) {
		this.#port = port;
		this.url = `http://localhost:${port}`;
	}

	async start(): Promise<void> {
		this.#running = await startServer({
			node: ['tests/e2e/smallClub.ts'],
			cwd: join(import.meta.dirname, '../..'),
			env: { PORT: String(this.#port), KITHLINE_DATA: this.#folder },
			readyUrl: `${this.url}/healthz`
		});
	}

	/** As a power switch does it: no time to finish anything. */
	kill(): Promise<void> {
		return this.#stop('SIGKILL');
	}

	/** Ids of the entries on disk, one for each row; only while no process serves them. */
	async onDisk(): Promise<string[]> {
		if (this.#running) throw new Error('onDisk requires a stopped server');
		const database = openDatabase(join(this.#folder, 'kithline.sqlite'));
		try {
			return (await createSqliteStorage(database).read(smallClubId).openRowsAfter(0)).map(({ id }) => id);
		} finally {
			await database.close();
		}
	}

	async remove(): Promise<void> {
		await this.#stop('SIGTERM');
		if (existsSync(this.#folder)) rmSync(this.#folder, { recursive: true, force: true });
	}

	async #stop(signal: NodeJS.Signals): Promise<void> {
		await this.#running?.stop(signal);
		this.#running = undefined;
	}
}
