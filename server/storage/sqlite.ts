/** The embedded storage: one SQLite file, WAL, synced at every commit (database.ts). */
import { createHash } from 'node:crypto';
import type { DatabaseSync, SQLInputValue, StatementSync } from 'node:sqlite';
import type { Database } from './database.ts';
import type {
	Binding,
	ClubChange,
	ClubRecord,
	Row,
	Storage,
	StoredClub,
	VolumeRecord,
	Whereabouts
} from './storage.ts';

const schema = `
CREATE TABLE IF NOT EXISTS ledgerClub (
	club TEXT PRIMARY KEY, edition TEXT NOT NULL, version INTEGER NOT NULL,
	lastRow INTEGER NOT NULL, lastTime INTEGER NOT NULL
) STRICT;
CREATE TABLE IF NOT EXISTS ledgerDocument (
	document TEXT PRIMARY KEY, club TEXT NOT NULL REFERENCES ledgerClub, audience TEXT NOT NULL, isOpen INTEGER NOT NULL
) STRICT;
CREATE UNIQUE INDEX IF NOT EXISTS ledgerOpenDocument ON ledgerDocument (club, audience) WHERE isOpen = 1;
CREATE TABLE IF NOT EXISTS ledgerRow (
	club TEXT NOT NULL REFERENCES ledgerClub, n INTEGER NOT NULL, document TEXT NOT NULL REFERENCES ledgerDocument,
	id TEXT NOT NULL, client INTEGER NOT NULL, clock INTEGER NOT NULL, text TEXT NOT NULL, textDigest TEXT NOT NULL,
	member TEXT NOT NULL, device TEXT NOT NULL, broughtBy TEXT, time INTEGER NOT NULL, stampClock INTEGER,
	volume TEXT, isErased INTEGER NOT NULL DEFAULT 0,
	PRIMARY KEY (club, n)
) STRICT;
CREATE UNIQUE INDEX IF NOT EXISTS ledgerRowPlace ON ledgerRow (document, client, clock);
-- With n, or the planner walks all rows of the club in order of n to find the first of an id.
CREATE INDEX IF NOT EXISTS ledgerRowId ON ledgerRow (club, id, n);
CREATE TABLE IF NOT EXISTS ledgerBinding (
	document TEXT NOT NULL REFERENCES ledgerDocument, client INTEGER NOT NULL, member TEXT NOT NULL, device TEXT NOT NULL,
	PRIMARY KEY (document, client)
) STRICT;
CREATE TABLE IF NOT EXISTS ledgerVolume (
	club TEXT NOT NULL REFERENCES ledgerClub, digest TEXT NOT NULL, audience TEXT NOT NULL, entries INTEGER NOT NULL,
	bytes INTEGER NOT NULL, firstRow INTEGER NOT NULL, lastRow INTEGER NOT NULL, content BLOB NOT NULL,
	PRIMARY KEY (club, digest)
) STRICT;
PRAGMA secure_delete = ON;
`;

const sha256 = (text: string) => createHash('sha256').update(text).digest('hex');

/** Prepares each statement once. */
function createStatements(sqlite: DatabaseSync) {
	const prepared = new Map<string, StatementSync>();
	const statement = (sql: string) => {
		let found = prepared.get(sql);
		if (!found) prepared.set(sql, (found = sqlite.prepare(sql)));
		return found;
	};
	return {
		all: <Result>(sql: string, ...values: SQLInputValue[]) => statement(sql).all(...values) as Result[],
		one: <Result>(sql: string, ...values: SQLInputValue[]) =>
			statement(sql).get(...values) as Result | undefined,
		run: (sql: string, ...values: SQLInputValue[]) => Number(statement(sql).run(...values).changes)
	};
}
type Statements = ReturnType<typeof createStatements>;

function reading(sql: Statements, club: string): StoredClub {
	return {
		async club() {
			const found = sql.one<Omit<ClubRecord, 'documents'>>('SELECT * FROM ledgerClub WHERE club = ?', club);
			if (!found) return null;
			const documents = sql.all<{ document: string; audience: string }>(
				'SELECT document, audience FROM ledgerDocument WHERE club = ? AND isOpen = 1 ORDER BY rowid',
				club
			);
			return { ...found, documents };
		},
		async openRowsAfter(n) {
			return sql.all<Row>(
				`SELECT n, r.document, id, client, clock, text, member, device, broughtBy, time, stampClock
				FROM ledgerRow r JOIN ledgerDocument d ON d.document = r.document AND d.isOpen = 1
				WHERE r.club = ? AND n > ? ORDER BY n`,
				club,
				n
			);
		},
		async bindings(document) {
			return sql.all<Binding>('SELECT * FROM ledgerBinding WHERE document = ?', document);
		},
		async volumes() {
			return sql.all<VolumeRecord>(
				`SELECT audience, digest, entries, bytes, firstRow, lastRow FROM ledgerVolume
				WHERE club = ? ORDER BY firstRow`,
				club
			);
		},
		async volume(digest) {
			const found = sql.one<{ content: Uint8Array }>(
				'SELECT content FROM ledgerVolume WHERE club = ? AND digest = ?',
				club,
				digest
			);
			return found?.content ?? null;
		},
		async find(ids) {
			const found = new Map<string, Whereabouts>();
			for (const id of ids) {
				const row = sql.one<{
					audience: string;
					n: number;
					textDigest: string;
					volume: string | null;
					isErased: number;
				}>(
					`SELECT d.audience, n, textDigest, volume, isErased FROM ledgerRow r JOIN ledgerDocument d
					ON d.document = r.document WHERE r.club = ? AND id = ? ORDER BY n LIMIT 1`,
					club,
					id
				);
				if (!row) continue;
				const where = row.isErased ? 'erased' : row.volume === null ? 'open' : 'volume';
				found.set(id, { id, audience: row.audience, n: row.n, where, textDigest: row.textDigest });
			}
			return found;
		},
		async idOfRow(n) {
			return (
				sql.one<{ id: string }>('SELECT id FROM ledgerRow WHERE club = ? AND n = ?', club, n)?.id ?? null
			);
		}
	};
}

/** A transaction that SQLite itself may end, for example when the disk is full. */
interface Transaction {
	readonly isOpen: boolean;
	endedBy: unknown;
}

function changing(sql: Statements, club: string, transaction: Transaction): ClubChange {
	const touch = () => sql.run('UPDATE ledgerClub SET version = version + 1 WHERE club = ?', club);
	const addVolume = (volume: VolumeRecord & { content: Uint8Array }) =>
		sql.run(
			'INSERT INTO ledgerVolume VALUES (?, ?, ?, ?, ?, ?, ?, ?)',
			club,
			volume.digest,
			volume.audience,
			volume.entries,
			volume.content.byteLength,
			volume.firstRow,
			volume.lastRow,
			volume.content
		);
	return {
		...reading(sql, club),
		async create(edition) {
			sql.run('INSERT INTO ledgerClub VALUES (?, ?, 1, 0, 0)', club, edition);
		},
		async setEdition(edition) {
			sql.run('UPDATE ledgerClub SET edition = ? WHERE club = ?', edition, club);
			touch();
		},
		async openDocument(document, audience) {
			sql.run('INSERT INTO ledgerDocument VALUES (?, ?, ?, 1)', document, club, audience);
			touch();
		},
		async append(rows) {
			for (const row of rows) {
				sql.run(
					`INSERT INTO ledgerRow (club, n, document, id, client, clock, text, textDigest, member, device, broughtBy,
					time, stampClock) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
					club,
					row.n,
					row.document,
					row.id,
					row.client,
					row.clock,
					row.text,
					sha256(row.text),
					row.member,
					row.device,
					row.broughtBy,
					row.time,
					row.stampClock
				);
				const follows = sql.run(
					'UPDATE ledgerClub SET lastRow = ?, lastTime = ? WHERE club = ? AND lastRow = ? AND lastTime <= ?',
					row.n,
					row.time,
					club,
					row.n - 1,
					row.time
				);
				if (follows !== 1)
					throw new RangeError(`append requires the next row number and no earlier time, got ${row.n}`);
			}
		},
		async bind(bindings) {
			for (const { document, client, member, device } of bindings)
				sql.run('INSERT INTO ledgerBinding VALUES (?, ?, ?, ?)', document, client, member, device);
		},
		async part(work) {
			// A full disk ends the whole transaction; a savepoint would begin another one.
			if (!transaction.isOpen) throw new Error('the transaction has ended');
			sql.run('SAVEPOINT part');
			try {
				const result = await work();
				sql.run('RELEASE part');
				return result;
			} catch (error) {
				if (!transaction.isOpen) {
					transaction.endedBy ??= error;
					throw error;
				}
				sql.run('ROLLBACK TO part');
				sql.run('RELEASE part');
				throw error;
			}
		},
		async closeDocument(document, volume) {
			if (volume) addVolume(volume);
			sql.run(
				`UPDATE ledgerRow SET volume = ?, text = '' WHERE document = ?`,
				volume?.digest ?? null,
				document
			);
			sql.run('UPDATE ledgerDocument SET isOpen = 0 WHERE document = ?', document);
			touch();
		},
		async rewriteVolume(oldDigest, volume, erasedIds) {
			sql.run('DELETE FROM ledgerVolume WHERE club = ? AND digest = ?', club, oldDigest);
			addVolume(volume);
			sql.run(
				'UPDATE ledgerRow SET volume = ? WHERE club = ? AND volume = ?',
				volume.digest,
				club,
				oldDigest
			);
			for (const id of erasedIds)
				sql.run(
					`UPDATE ledgerRow SET isErased = 1, text = '', textDigest = '' WHERE club = ? AND id = ? AND volume = ?`,
					club,
					id,
					volume.digest
				);
			touch();
		},
		async volumesWith(ids) {
			const digests = new Set<string>();
			for (const id of ids)
				for (const { volume } of sql.all<{ volume: string }>(
					'SELECT volume FROM ledgerRow WHERE club = ? AND id = ? AND volume IS NOT NULL AND isErased = 0',
					club,
					id
				))
					digests.add(volume);
			return [...digests];
		}
	};
}

export function createSqliteStorage(database: Pick<Database, 'sqlite' | 'alone'>): Storage {
	let statements: Statements | null = null;
	const sql = () => {
		if (statements) return statements;
		database.sqlite.exec(schema);
		return (statements = createStatements(database.sqlite));
	};
	/** Reading, too, waits its turn: it must not see another's half-done change. */
	const read = (club: string): StoredClub => {
		const alone =
			<Given extends unknown[], Result>(ask: (stored: StoredClub) => (...given: Given) => Promise<Result>) =>
			(...given: Given) =>
				database.alone(() => ask(reading(sql(), club))(...given));
		return {
			club: alone((stored) => stored.club),
			openRowsAfter: alone((stored) => stored.openRowsAfter),
			bindings: alone((stored) => stored.bindings),
			volumes: alone((stored) => stored.volumes),
			volume: alone((stored) => stored.volume),
			find: alone((stored) => stored.find),
			idOfRow: alone((stored) => stored.idOfRow)
		};
	};
	return {
		read,
		change: (club, work) =>
			database.alone(async () => {
				const own = sql();
				const { sqlite } = database;
				const transaction: Transaction = {
					get isOpen() {
						return sqlite.isTransaction;
					},
					endedBy: null
				};
				sqlite.exec('BEGIN IMMEDIATE');
				try {
					const result = await work(changing(own, club, transaction));
					// Whatever `work` made of it: nothing of this change is there.
					if (transaction.endedBy !== null) throw transaction.endedBy;
					sqlite.exec('COMMIT');
					return result;
				} catch (error) {
					// A failed commit (a full disk) may have ended the transaction already.
					if (sqlite.isTransaction) sqlite.exec('ROLLBACK');
					throw error;
				}
			}),
		scrub: () =>
			database.alone(() => {
				sql();
				database.sqlite.exec('PRAGMA wal_checkpoint(TRUNCATE)');
			})
	};
}
