/**
 * The one database file: opened once, on first use (pages are built without touching the disk), shared by the
 * ledger (plain statements) and the accounts (kysely).
 *
 * SQLite has one writer and this process one connection, so everything takes turns: `alone` gives the connection
 * to one piece of work at a time, a kysely transaction included. Never call the ledger from inside a kysely
 * transaction: it would wait for itself.
 */
import { mkdirSync } from 'node:fs';
import { dirname } from 'node:path';
import { DatabaseSync, type SQLInputValue } from 'node:sqlite';
import { Kysely, SqliteDialect, SqliteDriver, type DatabaseConnection, type SqliteDatabase } from 'kysely';

export interface Database<Tables = unknown> {
	/** The raw connection. Use it inside `alone` only, without waiting in between. */
	readonly sqlite: DatabaseSync;
	readonly kysely: Kysely<Tables>;
	/** Runs `work` while nobody else uses the connection. */
	alone<Result>(work: () => Result | Promise<Result>): Promise<Result>;
	/** Waits for work under way, then closes the file. Closing twice is harmless. */
	close(): Promise<void>;
}

/** A row of people waiting for one thing; `take` gives the function that hands it on. */
function createTurns(): { take(): Promise<() => void> } {
	let last: Promise<void> = Promise.resolve();
	return {
		async take() {
			const before = last;
			let done!: () => void;
			last = new Promise((resolve) => (done = resolve));
			await before;
			return done;
		}
	};
}

/** kysely's own driver, but a connection is held by one at a time. */
class DriverTakingTurns extends SqliteDriver {
	readonly #turns: { take(): Promise<() => void> };
	#release: (() => void) | null = null;

	constructor(database: () => Promise<SqliteDatabase>, turns: { take(): Promise<() => void> }) {
		super({ database });
		this.#turns = turns;
	}
	override async acquireConnection(): Promise<DatabaseConnection> {
		const release = await this.#turns.take();
		this.#release = release;
		return super.acquireConnection();
	}
	override async releaseConnection(): Promise<void> {
		const release = this.#release;
		this.#release = null;
		release?.();
	}
}

/** What kysely asks of a database, over node:sqlite. */
function forKysely(sqlite: DatabaseSync): SqliteDatabase {
	return {
		close: () => {},
		prepare(sql) {
			const statement = sqlite.prepare(sql);
			const given = (values: readonly unknown[]) => values as readonly SQLInputValue[];
			return {
				reader: statement.columns().length > 0,
				all: (values) => statement.all(...given(values)),
				run: (values) => statement.run(...given(values)),
				iterate: (values) => statement.iterate(...given(values))
			};
		}
	};
}

function openFile(path: string): DatabaseSync {
	if (path !== ':memory:') mkdirSync(dirname(path), { recursive: true });
	const sqlite = new DatabaseSync(path, { timeout: 5_000 });
	// An answer "shared" is only as good as the sync before it: FULL syncs the log at every commit.
	sqlite.exec('PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; PRAGMA foreign_keys = ON;');
	return sqlite;
}

/** @param path of the file; its folder is made if missing. `:memory:` for tests. */
export function openDatabase<Tables = unknown>(path: string): Database<Tables> {
	const turns = createTurns();
	let opened: DatabaseSync | null = null;
	let closed = false;
	const sqlite = () => {
		if (closed) throw new Error('openDatabase: the database is closed');
		return (opened ??= openFile(path));
	};
	class Dialect extends SqliteDialect {
		override createDriver() {
			return new DriverTakingTurns(async () => forKysely(sqlite()), turns);
		}
	}
	// The dialect's own database is never asked for: the driver above brings it.
	const kysely = new Kysely<Tables>({ dialect: new Dialect({ database: async () => forKysely(sqlite()) }) });
	return {
		get sqlite() {
			return sqlite();
		},
		kysely,
		async alone(work) {
			const release = await turns.take();
			try {
				return await work();
			} finally {
				release();
			}
		},
		async close() {
			const release = await turns.take();
			closed = true;
			opened?.close();
			opened = null;
			release();
		}
	};
}
