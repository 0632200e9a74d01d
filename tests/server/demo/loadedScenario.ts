/** The demo club in a real server on a database of its own, and what the club's fold makes of it. */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Fold, type FoldInput } from '#records/fold.ts';
import { kinds } from '#records/kinds.ts';
import { insertAccount } from '#server/auth/accounts.ts';
import { createClubRecord } from '#server/club/clubRecord.ts';
import { createTables, type Db, type Tables } from '#server/club/tables.ts';
import { buildScenario } from '#server/demo/scenario/buildScenario.ts';
import { loadScenario } from '#server/demo/scenario/loadScenario.ts';
import type { Scenario } from '#server/demo/scenario/scenario.ts';
import { createLedger, type Ledger } from '#server/ledger/ledger.ts';
import { readVolume } from '#server/ledger/volumes.ts';
import { openDatabase } from '#server/storage/database.ts';
import { createSqliteStorage } from '#server/storage/sqlite.ts';

export interface LoadedScenario {
	readonly scenario: Scenario;
	readonly ledger: Ledger;
	readonly db: Db;
	readonly written: number;
	/** What the operator was told. */
	readonly events: readonly string[];
	close(): Promise<void>;
}

export async function loadedScenario(seed: number, now: Date): Promise<LoadedScenario> {
	const folder = await mkdtemp(join(tmpdir(), 'kithline-demo-'));
	const database = openDatabase<Tables>(join(folder, 'club.sqlite'));
	const db = database.kysely as Db;
	await createTables(db);
	let time = 0;
	const events: string[] = [];
	const ledger = createLedger({
		storage: createSqliteStorage(database),
		clock: () => time,
		needsStamp: ({ kind }) => ['decision', 'server'].includes(kinds.get(kind)?.nature ?? ''),
		log: (event) => void events.push(event)
	});
	const record = createClubRecord(db, ledger);
	const scenario = buildScenario({ seed, now });
	const written = await loadScenario(
		{
			...{ db, record, ledger },
			setClock: (to) => void (time = to),
			accountOf: (transaction, { key }, at) =>
				insertAccount(transaction, { signInName: key, passwordHash: '' }, at)
		},
		scenario
	);
	return {
		...{ scenario, ledger, db, written, events },
		async close() {
			await ledger.close();
			await database.close();
			await rm(folder, { recursive: true });
		}
	};
}

/** All rows of an audience, volumes first, as a device gets them. */
export async function inputsOf({ ledger, scenario }: LoadedScenario, audience: string): Promise<FoldInput[]> {
	const club = scenario.club.id;
	const manifest = await ledger.manifest(club, [audience]);
	const inputs: FoldInput[] = [];
	for (const { volumes } of manifest.audiences)
		for (const { digest } of volumes) {
			const content = await ledger.volume(club, digest, [audience]);
			for (const row of content ? await readVolume(content) : [])
				inputs.push(
					row.stamp === undefined
						? { text: row.text }
						: { text: row.text, stamp: { id: row.id, n: row.n, time: row.stamp } }
				);
		}
	for (const { id, n, text, time, stampClock } of await ledger.openRows(club, audience))
		inputs.push(stampClock === null ? { text } : { text, stamp: { id, n, time } });
	return inputs;
}

export async function foldOf(loaded: LoadedScenario): Promise<Fold> {
	const fold = new Fold();
	fold.add(await inputsOf(loaded, 'club'));
	return fold;
}
