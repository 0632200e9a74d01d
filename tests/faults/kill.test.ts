import { spawn, type ChildProcess } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { openDatabase } from '#server/storage/database.ts';
import { createSqliteStorage } from '#server/storage/sqlite.ts';
import { createLedger } from '#server/ledger/ledger.ts';
import { randomFrom } from '#genetics/drop/randomFrom.ts';
import { until } from '#tests/helpers/until.ts';
import { entryText } from '#tests/server/ledger/entries.ts';
import { SyncClient } from '#tests/server/ledger/syncClient.ts';
import { isDecision } from '#tests/server/ledger/syncServer.ts';

const rounds = 24;
const clubId = 'club-1';
const runner = new URL('./syncRunner.ts', import.meta.url).pathname;

interface Running {
	readonly process: ChildProcess;
	readonly port: number;
	readonly gone: Promise<void>;
}

async function start(file: string, port: number): Promise<Running> {
	const child = spawn(process.execPath, [runner, file, String(port)], {
		stdio: ['ignore', 'pipe', 'inherit']
	});
	const gone = new Promise<void>((done) => child.on('exit', () => done()));
	let said = '';
	child.stdout!.on('data', (data: Buffer) => (said += data.toString()));
	await until('the server process to listen', () => said.includes('listening'), 30_000);
	return { process: child, port: Number(/listening (\d+)/.exec(said)?.[1]), gone };
}

/** What is on disk while no process has it open. */
async function onDisk<Result>(
	file: string,
	look: (storage: ReturnType<typeof createSqliteStorage>) => Promise<Result>
) {
	const database = openDatabase(file);
	try {
		return await look(createSqliteStorage(database));
	} finally {
		await database.close();
	}
}

test(`${rounds} SIGKILLs under writing (seed 7): nothing answered as shared is ever missing, all end equal`, async () => {
	const random = randomFrom(7);
	const folder = await mkdtemp(join(tmpdir(), 'kithline-kill-'));
	const file = join(folder, 'club.sqlite');
	let server = await start(file, 0);
	const clients: SyncClient[] = [];
	onTestFinished(async () => {
		for (const client of clients) client.destroy();
		server.process.kill('SIGKILL');
		await server.gone;
		await rm(folder, { recursive: true });
	});

	const manifest = await onDisk(file, async (storage) => {
		const ledger = createLedger({ storage, clock: Date.now, needsStamp: isDecision, log: () => {} });
		const asked = await ledger.manifest(clubId, ['club']);
		await ledger.close();
		return asked;
	});
	for (const [index, name] of ['ann', 'bob', 'cy'].entries()) {
		const client = new SyncClient(
			{
				port: server.port,
				club: clubId,
				who: `${name} ${name}-phone`,
				client: 2 ** 40 * (index + 1),
				manifest: async () => manifest
			},
			manifest
		);
		clients.push(client);
		client.connect();
	}

	let written = 0;
	const write = () => {
		const client = clients[written % clients.length]!;
		const name = ['ann', 'bob', 'cy'][written % clients.length]!;
		const kind = written % 5 === 0 ? 'line/rulesSet' : 'group/counted';
		client.add(entryText(written, { by: name, device: `${name}-phone`, kind }));
		written += 1;
	};
	const answered = () => clients.reduce((sum, { shared }) => sum + shared.size, 0);

	for (let round = 0; round < rounds; round += 1) {
		await until(
			'the clients to be connected',
			() => clients.every(({ provider }) => provider.synced),
			30_000
		);
		// Killed at a random number of answers, a random number of turns later, while writing goes on.
		const enough = answered() + 1 + Math.floor(random() * 40);
		let turns = Math.floor(random() * 12);
		await until('answers', async () => {
			for (let burst = Math.floor(random() * 4); burst >= 0; burst -= 1) write();
			await new Promise((turn) => setImmediate(turn));
			return answered() >= enough && turns-- <= 0;
		});
		server.process.kill('SIGKILL');
		write();
		await server.gone;
		const shared = clients.flatMap((client) => [...client.shared]);
		const found = await onDisk(file, (storage) => storage.read(clubId).find(shared.map(([id]) => id)));
		const missing = shared.filter(([id, n]) => found.get(id)?.n !== n);
		expect(missing, `round ${round}`).toEqual([]);
		server = await start(file, server.port);
	}

	await until('everything to be shared', () => clients.every(({ unshared }) => unshared.size === 0), 60_000);
	await until(
		'all entries everywhere',
		() => clients.every((client) => client.ids().size === written),
		60_000
	);
	const [first, ...others] = clients;
	for (const other of others) expect(other.entries()).toEqual(first!.entries());
	expect(clients.flatMap(({ refused }) => [...refused])).toEqual([]);
	expect(clients.some((client) => client.has('fetch-anew') || client.has('log-damaged'))).toBe(false);
	const rows = await onDisk(file, (storage) => storage.read(clubId).openRowsAfter(0));
	expect(rows.map(({ n }) => n)).toEqual(rows.map((_, index) => index + 1));
	expect(rows.length).toBe(written);
	expect(written).toBeGreaterThan(rounds * 3);
}, 240_000);
