/** The real ledger and socket on a file database and a real port, with sign-in by headers. */
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { Entry } from '#records/entry.ts';
import { createLedger, type Ledger } from '#server/ledger/ledger.ts';
import { attachSync, type Sync } from '#server/socket/attachSync.ts';
import { openDatabase, type Database } from '#server/storage/database.ts';
import { createSqliteStorage } from '#server/storage/sqlite.ts';

export interface SyncServer {
	readonly database: Database;
	readonly ledger: Ledger;
	readonly sync: Sync;
	readonly port: number;
	/** What was told to the operator. */
	readonly events: { readonly event: string; readonly about: Readonly<Record<string, string | number>> }[];
	close(): Promise<void>;
}

export interface SyncServerOptions {
	readonly file: string;
	readonly port?: number;
	readonly clock?: () => number;
	readonly mayOpen?: (member: string, club: string, audience: string) => boolean;
}

/** Also fails on one kind, as a fault in the records would. */
export function isDecision({ kind }: Entry): boolean {
	if (kind === 'test/throws') throw new Error('a fault in the records');
	return kind === 'line/rulesSet';
}

/** The header `x-who` is `member device device...`; the first device is this one. */
export async function startSyncServer(options: SyncServerOptions): Promise<SyncServer> {
	const { file, port = 0, clock = Date.now, mayOpen = () => true } = options;
	const database = openDatabase(file);
	const events: SyncServer['events'] = [];
	const log = (event: string, about: Readonly<Record<string, string | number>>) =>
		void events.push({ event, about });
	const storage = createSqliteStorage(database);
	const ledger = createLedger({ storage, clock, needsStamp: isDecision, log, unloadAfterMs: 20 });
	const sync = attachSync({
		ledger,
		clock,
		log,
		mayOpen,
		async authenticate(request) {
			const [member, device, ...devices] = String(request.headers['x-who'] ?? '').split(' ');
			return member && device ? { member, device, devices } : 'signedOut';
		}
	});
	const http = createServer((_, response) => response.end());
	http.on('upgrade', (request, socket, head) => {
		if (!sync.upgrade(request, socket, head)) socket.destroy();
	});
	await new Promise<void>((listening) => http.listen(port, '127.0.0.1', listening));
	return {
		database,
		ledger,
		sync,
		events,
		port: (http.address() as AddressInfo).port,
		async close() {
			await ledger.close();
			await sync.close();
			http.closeAllConnections();
			await new Promise((closed) => http.close(closed));
			await database.close();
		}
	};
}
