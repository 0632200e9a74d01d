import { once } from 'node:events';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { WebSocket } from 'ws';
import { protocolVersion } from '#protocol/limits.ts';
import { reasons } from '#protocol/reasons.ts';
import { startSyncServer } from './syncServer.ts';

test('a page that holds one member’s record gets no socket with the session of another', async () => {
	const folder = await mkdtemp(join(tmpdir(), 'kithline-member-'));
	const server = await startSyncServer({ file: join(folder, 'club.sqlite') });
	onTestFinished(async () => {
		await server.close();
		await rm(folder, { recursive: true });
	});
	await server.ledger.createClub('club-1');
	const { edition, audiences } = await server.ledger.manifest('club-1', ['club']);
	const closedWith = async (asking: string) => {
		const params = new URLSearchParams({ edition, protocol: String(protocolVersion) });
		const place = `${audiences[0]!.document}?${params.toString()}${asking}`;
		const socket = new WebSocket(`ws://127.0.0.1:${server.port}/sync/club-1/${place}`, {
			headers: { 'x-who': 'bob bob-phone' }
		});
		socket.on('open', () => socket.send(new Uint8Array([0, 0, 1, 0])));
		// The answer to a state vector means that it was let in.
		const code = await Promise.race([
			once(socket, 'close').then(([closed]) => closed as number),
			once(socket, 'message').then(() => 'let in')
		]);
		socket.terminate();
		return code;
	};
	expect(await closedWith('&member=ann')).toBe(reasons.signedOut.code);
	expect(await closedWith('&member=bob')).toBe('let in');
	expect(await closedWith('')).toBe('let in');
});
