/** A server with one club in a folder of its own, and devices on it; everything is closed after the test. */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { startSyncServer, type SyncServer, type SyncServerOptions } from './syncServer.ts';
import { SyncClient } from './syncClient.ts';
import { until } from '#tests/helpers/until.ts';

export const clubId = 'club-1';

export interface TestClub {
	server: SyncServer;
	readonly file: string;
	/** A connected device that has the club's state. */
	device(who: string, client: number, audience?: string): Promise<SyncClient>;
	/** A device that does not connect yet. */
	deviceOffline(who: string, client: number, audience?: string): Promise<SyncClient>;
	/** Stops the server; `between` may change the file; starts it at the same port. */
	restart(between?: () => Promise<void>): Promise<void>;
}

export async function openTestClub(options: Partial<SyncServerOptions> = {}): Promise<TestClub> {
	const folder = await mkdtemp(join(tmpdir(), 'kithline-ledger-'));
	const file = join(folder, 'club.sqlite');
	const devices: SyncClient[] = [];
	const club: TestClub = {
		server: await startSyncServer({ file, ...options }),
		file,
		async deviceOffline(who, client, audience = 'club') {
			const manifest = () => club.server.ledger.manifest(clubId, [audience]);
			const device = new SyncClient(
				{ port: club.server.port, club: clubId, who, client, audience, manifest },
				await manifest()
			);
			devices.push(device);
			return device;
		},
		async device(who, client, audience) {
			const device = await club.deviceOffline(who, client, audience);
			device.connect();
			await until(`${who} to be synced`, () => device.provider.synced && device.has('known'));
			return device;
		},
		async restart(between) {
			const { port } = club.server;
			await club.server.close();
			await between?.();
			club.server = await startSyncServer({ file, ...options, port });
		}
	};
	onTestFinished(async () => {
		for (const device of devices) device.destroy();
		await club.server.close();
		await rm(folder, { recursive: true });
	});
	await club.server.ledger.createClub(clubId);
	return club;
}
