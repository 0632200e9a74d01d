/**
 * The real ledger, storage and socket for tests of the device end, without pages. Who asks is taken from a cookie
 * `seat=<member>.<device>`; sign-in has tests of its own. `POST /control` does what an officer or operator would.
 *
 * Run: node ledgerServer.ts PORT DATABASE CLUB
 */
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { Entry } from '#records/entry.ts';
import { kinds } from '#records/kinds.ts';
import { createLedger, type Caller } from '#server/ledger/ledger.ts';
import { attachSync } from '#server/socket/attachSync.ts';
import { openDatabase } from '#server/storage/database.ts';
import { createSqliteStorage } from '#server/storage/sqlite.ts';

const [port, file, club] = process.argv.slice(2) as [string, string, string];
const database = openDatabase(file);
const storage = createSqliteStorage(database);
const needsStamp = (entry: Entry) =>
	['decision', 'server'].includes(kinds.get(entry.kind)?.nature ?? 'decision');
const ledger = createLedger({
	storage,
	clock: Date.now,
	needsStamp,
	log: (event, about) => console.log(event, JSON.stringify(about))
});
await ledger.createClub(club);

function seat(request: IncomingMessage): Caller | null {
	const found = /(?:^|; )seat=([^.;]+)\.([^;]+)/.exec(request.headers.cookie ?? '');
	// Every device name that begins with the member's is one the member has had.
	return found
		? { member: found[1]!, device: found[2]!, devices: [`${found[1]}-old`, `${found[1]}-phone`] }
		: null;
}

const sync = attachSync({
	ledger,
	authenticate: (request) => Promise.resolve(seat(request) ?? ('signedOut' as const)),
	mayOpen: () => true,
	clock: Date.now,
	log: (event, about) => console.log(event, JSON.stringify(about))
});

/** How many rows the club has, and the logs of its open documents. */
async function rows(): Promise<{ rows: number; logs: number[] }> {
	const found: number[] = [];
	const audiences = await ledger.audiences(club);
	for (const audience of audiences)
		for (const row of await ledger.openRows(club, audience)) found.push(row.client);
	const manifest = await ledger.manifest(club, audiences);
	const volumes = manifest.audiences.flatMap((one) => one.volumes.map((volume) => volume.entries));
	const inVolumes = volumes.reduce((sum, count) => sum + count, 0);
	return { rows: found.length + inVolumes, logs: [...new Set(found)] };
}

async function bodyOf(request: IncomingMessage): Promise<unknown> {
	let text = '';
	for await (const part of request) text += String(part);
	return JSON.parse(text);
}

async function control(request: IncomingMessage): Promise<unknown> {
	const command = (await bodyOf(request)) as {
		what: string;
		ids?: string[];
		audience?: string;
		room?: string;
		to?: string;
	};
	switch (command.what) {
		case 'rows':
			return rows();
		case 'find':
			return [...(await storage.read(club).find(command.ids ?? [])).values()];
		case 'erase':
			return ledger.erase(club, command.ids ?? []);
		case 'close-volume':
			return ledger.closeVolume(club, command.audience ?? 'club');
		case 'new-edition':
			return ledger.newEdition(club);
		case 'room':
			return ledger.openRoomEpoch(club, command.room ?? 'room');
		case 'backup':
			return database.alone(async () => database.sqlite.exec(`VACUUM INTO '${command.to}'`));
		default:
			throw new RangeError(`control requires a known command, got ${command.what}`);
	}
}

async function answer(request: IncomingMessage, response: ServerResponse): Promise<void> {
	const json = (status: number, value: unknown) =>
		response.writeHead(status, { 'content-type': 'application/json' }).end(JSON.stringify(value ?? null));
	const path = new URL(request.url ?? '/', 'http://server').pathname;
	if (path === '/healthz') return void json(200, { ok: true });
	if (path === '/control') return void json(200, await control(request));
	const [, , , asked, what, digest] = path.split('/');
	if (!seat(request)) return void json(401, {});
	if (asked !== club) return void json(404, {});
	const audiences = await ledger.audiences(club);
	if (what === 'manifest') return void json(200, await ledger.manifest(club, audiences));
	if (what === 'bring') {
		// Officers are those whose name says so.
		if (!seat(request)!.member.startsWith('officer')) return void json(403, {});
		const { audience, texts } = (await bodyOf(request)) as { audience: string; texts: string[] };
		return void json(200, { brought: await ledger.bring(club, audience, texts, seat(request)!) });
	}
	const volume = await ledger.volume(club, digest ?? '', audiences);
	if (volume) response.writeHead(200, { 'content-type': 'application/gzip' }).end(Buffer.from(volume));
	else json(404, {});
}

const server = createServer((request, response) => {
	answer(request, response).catch((error: unknown) => {
		console.error(error);
		response.writeHead(500).end();
	});
});
server.on('upgrade', (request, socket, head) => {
	if (!sync.upgrade(request, socket, head)) socket.destroy();
});
server.listen(Number(port), '127.0.0.1');
process.on('SIGTERM', () => {
	server.close();
	server.closeAllConnections();
	void sync
		.close()
		.then(() => ledger.close())
		.then(() => database.close())
		.then(() => process.exit(0));
});
