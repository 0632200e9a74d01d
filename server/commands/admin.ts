/** `npm run admin -- COMMAND`: for whoever runs the server. */
import { existsSync, mkdirSync, renameSync, copyFileSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { ConfigProblem, readConfig, type Config } from '#server/config.ts';
import { skipNumbers } from '#server/club/numberBlocks.ts';
import { createApp, type App } from '#server/http/app.ts';
import { signInKey } from '#server/auth/accounts.ts';

const usage = `npm run admin -- backup FILE            copies everything into FILE, while the server runs
npm run admin -- restore FILE           puts a backup in place; stop the server first
npm run admin -- link first-officer     a link with which another club is opened
npm run admin -- link sign-in NAME      a new way in for the person who signs in as NAME`;

/** Something that the person at the keyboard can mend. */
class Refused extends Error {}

/** A copy in one piece, taken without stopping anybody: SQLite's VACUUM INTO. */
function backup(config: Config, file: string): void {
	if (!existsSync(config.databaseFile))
		throw new Refused(`There is nothing to back up in ${config.dataFolder}.`);
	if (existsSync(file)) throw new Refused(`${file} is there already. Choose another name.`);
	mkdirSync(dirname(file), { recursive: true });
	const database = new DatabaseSync(config.databaseFile, { timeout: 5_000 });
	try {
		database.prepare('VACUUM INTO ?').run(file);
	} finally {
		database.close();
	}
	console.log(`Everything is copied into ${file}.`);
}

/** More than a club prints between two backups. */
const numbersSkipped = 5_000;

/** A file that is a whole Kithline database. */
function assertBackup(file: string): void {
	if (!existsSync(file)) throw new Refused(`${file} is not there.`);
	let sound: unknown;
	try {
		const database = new DatabaseSync(file, { readOnly: true });
		try {
			database.prepare('SELECT count(*) FROM ledgerClub').get();
			sound = database.prepare('PRAGMA integrity_check').get()?.integrity_check;
		} finally {
			database.close();
		}
	} catch {
		sound = 'not a database';
	}
	if (sound !== 'ok') throw new Refused(`${file} is not a whole Kithline backup. Nothing was changed.`);
}

/** Whether nobody else has the database open: an exclusive lock is to be had at once. */
function assertStopped(config: Config): void {
	const database = new DatabaseSync(config.databaseFile, { timeout: 0 });
	try {
		// With this journal mode the file is locked whole; a running server holds its own part of it.
		database.exec('PRAGMA locking_mode = EXCLUSIVE; PRAGMA journal_mode = DELETE;');
	} catch {
		throw new Refused('The server is running on this folder. Stop it, then restore.');
	} finally {
		database.close();
	}
}

/**
 * Puts a backup in place; what was there is set aside, not deleted. Every club gets a new edition, so that devices
 * that know more put back what the backup lacks.
 */
async function restore(config: Config, file: string, now: () => number): Promise<void> {
	assertBackup(file);
	mkdirSync(config.dataFolder, { recursive: true });
	if (existsSync(config.databaseFile)) {
		assertStopped(config);
		const aside = `${config.databaseFile}.before-${new Date(now()).toISOString().replace(/[:.]/g, '-')}`;
		for (const end of ['', '-wal', '-shm'])
			if (existsSync(config.databaseFile + end)) renameSync(config.databaseFile + end, aside + end);
		console.log(`What was there is kept as ${aside}.`);
	}
	copyFileSync(file, config.databaseFile);
	await withApp(config, async ({ db, ledger, sessions }) => {
		const clubs = await db.selectFrom('club').select('id').execute();
		for (const { id } of clubs) {
			if (await ledger.hasClub(id)) await ledger.newEdition(id);
			// Bag numbers given after the backup are on bags and labels: step well over them.
			await skipNumbers(db, id, numbersSkipped, now());
		}
		// A password changed after the backup was changed for a reason: nobody stays signed in from before.
		const accounts = await db.selectFrom('account').select('id').execute();
		for (const { id } of accounts) await sessions.endAll(id);
		console.log(
			`Restored ${clubs.length} ${clubs.length === 1 ? 'club' : 'clubs'}. Everybody signs in again.`
		);
	});
}

async function link(config: Config, what: string | undefined, name: string | undefined): Promise<void> {
	await withApp(config, async ({ db, invitations }) => {
		const address = config.origin ?? `http://localhost:${config.port}`;
		if (what === 'first-officer') {
			const { token } = await invitations.make({ purpose: 'first-officer' });
			console.log(`${address}/first-officer/${token}`);
		} else if (what === 'sign-in' && name) {
			const account = await db
				.selectFrom('account')
				.select('id')
				.where('signInKey', '=', signInKey(name))
				.executeTakeFirst();
			if (!account) throw new Refused('Nobody signs in with that name.');
			const { token, code } = await invitations.make({ purpose: 'sign-in', account: account.id });
			console.log(`${address}/sign-in-link/${token}\ncode ${code}`);
		} else throw new Refused(usage);
	});
}

async function withApp(config: Config, work: (app: App) => Promise<void>): Promise<void> {
	const app = await createApp(config);
	try {
		await work(app);
	} finally {
		await app.close();
	}
}

async function run([command, first, second]: readonly string[]): Promise<void> {
	const config = readConfig();
	if (command === 'backup' && first) return backup(config, resolve(first));
	if (command === 'restore' && first) return restore(config, resolve(first), Date.now);
	if (command === 'link') return link(config, first, second);
	throw new Refused(usage);
}

await run(process.argv.slice(2)).catch((error: unknown) => {
	console.error(error instanceof Refused || error instanceof ConfigProblem ? error.message : error);
	process.exit(1);
});
