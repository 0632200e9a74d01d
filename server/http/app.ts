/** The whole server behind pages and sockets, put together once for a process (or for a test). */
import type { IncomingMessage } from 'node:http';
import { mkdirSync } from 'node:fs';
import type { Entry } from '#records/entry.ts';
import { kinds } from '#records/kinds.ts';
import { createAccounts } from '../auth/accounts.ts';
import { createAttempts } from '../auth/attempts.ts';
import { createInvitations } from '../auth/invitations.ts';
import { createSessions, seatIn } from '../auth/session.ts';
import { createClubOffice } from '../club/clubOffice.ts';
import { createClubRecord } from '../club/clubRecord.ts';
import { createClubStates } from '../club/clubStates.ts';
import { mayOpen } from '../club/mayOpen.ts';
import { createTables, type Tables } from '../club/tables.ts';
import { appVersion, describeConfig, type Config } from '../config.ts';
import { createLedger } from '../ledger/ledger.ts';
import { attachSync } from '../socket/attachSync.ts';
import { openDatabase } from '../storage/database.ts';
import { createSqliteStorage } from '../storage/sqlite.ts';
import { offlineWorks, wayOut } from './offlineWorks.ts';
import { secretInHeader } from './sessionSecret.ts';

export type App = Awaited<ReturnType<typeof createApp>>;

/** The server stamps decisions and its own entries; a kind that it does not know yet may be a decision. */
export function needsStamp(entry: Entry): boolean {
	const nature = kinds.get(entry.kind)?.nature;
	return nature === undefined || nature === 'decision' || nature === 'server';
}

/** Codes and ids on one line, for whoever runs the server. */
function log(event: string, about: Readonly<Record<string, string | number>>): void {
	const words = Object.entries(about).map(([name, value]) => `${name}=${String(value)}`);
	console.log([event, ...words].join(' '));
}

/** @param now the clock, ms since 1970 */
export async function createApp(config: Config, now: () => number = Date.now) {
	mkdirSync(config.dataFolder, { recursive: true });
	const database = openDatabase<Tables>(config.databaseFile);
	const db = database.kysely;
	await createTables(db);
	const storage = createSqliteStorage(database);
	// Makes the ledger's tables now, so that a disk that cannot be written stops the start and not the first member.
	await storage.read('').club();
	const ledger = createLedger({ storage, clock: now, needsStamp, log });
	const sessions = createSessions(db, config.sessionDays, now);
	const invitations = createInvitations(db, now);
	const attempts = createAttempts(now);
	const record = createClubRecord(db, ledger);
	const accounts = createAccounts({ db, sessions, invitations, attempts, record, now });
	const office = createClubOffice({ db, record, invitations, sessions, now });
	const states = createClubStates(ledger);
	// What a stopped process left: the club's own entries that the ledger has not got yet.
	await record.flushAll();
	await sessions.tidy();

	async function authenticate(request: IncomingMessage, club: string) {
		const session = await sessions.read(secretInHeader(request.headers.cookie));
		if (!session) return 'signedOut' as const;
		const seat = seatIn(session, club);
		if (!seat) return 'notAllowed' as const;
		const devices = await db.selectFrom('device').select('id').where('member', '=', seat.member).execute();
		return { member: seat.member, device: seat.device, devices: devices.map(({ id }) => id) };
	}

	const sync = attachSync({
		ledger,
		authenticate,
		mayOpen: (member, club, audience) => mayOpen(db, member, club, audience),
		mayConnectFrom(origin, request) {
			if (config.origin) return origin === config.origin;
			const forwarded = config.trustProxy ? request.headers['x-forwarded-host'] : undefined;
			return URL.canParse(origin) && new URL(origin).host === (forwarded ?? request.headers.host);
		},
		clock: now,
		log
	});
	// A session, membership or role ended: every open socket is asked for its right again.
	sessions.onEnded(() => void sync.recheck());

	const startedAt = now();
	return {
		config,
		db,
		database,
		storage,
		ledger,
		sync,
		sessions,
		invitations,
		attempts,
		accounts,
		office,
		record,
		states,
		now,

		async health() {
			// Reading a row proves that the disk answers.
			const row = await database.alone(() =>
				database.sqlite.prepare('SELECT coalesce(sum(lastRow), 0) AS rows FROM ledgerClub').get()
			);
			const uptimeSeconds = Math.floor((now() - startedAt) / 1000);
			return { ok: true as const, version: appVersion, rows: Number(row?.rows ?? 0), uptimeSeconds };
		},

		/** Lines for the console once the server listens. */
		async greeting(port: number): Promise<string[]> {
			const address = config.origin ?? `http://localhost:${port}`;
			const lines = [...describeConfig(config), `ready at ${address}`];
			if (!offlineWorks(new URL(address))) {
				lines.push(
					`Phones will not work offline at ${address}: it is neither https nor this machine.`,
					wayOut
				);
			} else if (!config.origin) {
				lines.push(
					'Phones that reach this machine by another address over http will not work offline.',
					wayOut
				);
			}
			if (!config.demo && (await accounts.isEmpty())) {
				await invitations.revoke('first-officer');
				const { token } = await invitations.make({ purpose: 'first-officer' });
				lines.push('No club yet. The first officer opens it with this link, which works once:');
				lines.push(`${address}/first-officer/${token}`);
			}
			return lines;
		},

		/** @param answered resolves when no request is under way any more */
		async close(answered: () => Promise<void> = () => Promise.resolve()): Promise<void> {
			await sync.close();
			await answered();
			await ledger.close();
			await database.close();
		}
	};
}
