import { randomBytes } from 'node:crypto';
import { createConnection } from 'node:net';
import { describe, expect, onTestFinished, test } from 'vitest';
import { WebSocket } from 'ws';
import { limits } from '#protocol/limits.ts';
import { reasons } from '#protocol/reasons.ts';
import { until } from '#tests/helpers/until.ts';
import { closingAttacks, handMade } from './attacks.ts';
import { clubId, openTestClub, type TestClub } from './club.ts';
import { entryId, entryText } from './entries.ts';

const annsLog = 2 ** 40 + 1;
const evesLog = 2 ** 42 + 1;

/** Ann writes on before and after what Eve does; nothing of Eve's is anywhere, and Ann notices nothing. */
async function unharmed(club: TestClub, attack: () => Promise<void>): Promise<void> {
	const ann = await club.device('ann ann-phone', annsLog);
	ann.add(entryText(1));
	await until('the first answer', () => ann.shared.size === 1);
	await attack();
	ann.add(entryText(2));
	await until('the second answer', () => ann.shared.size === 2);
	const bob = await club.device('bob bob-phone', 2 ** 43);
	expect(bob.entries()).toEqual(ann.entries());
	expect([...bob.ids()].sort()).toEqual([entryId(1), entryId(2)]);
	expect(ann.closed).toEqual([]);
}

async function closesEve(
	club: TestClub,
	act: (eve: Awaited<ReturnType<TestClub['device']>>) => void,
	code: number
) {
	const eve = await club.device('eve eve-phone', evesLog);
	act(eve);
	await until('Eve to be closed', () => eve.closed.length > 0);
	expect(eve.closed[0]).toBe(code);
	eve.disconnect();
}

describe('attacks over the socket', { timeout: 60_000 }, () => {
	test.each(closingAttacks)('$name: closed by name, nobody else is touched', async ({ update }) => {
		const club = await openTestClub();
		await unharmed(club, () =>
			closesEve(club, (eve) => eve.sendUpdate(update(evesLog, annsLog, eve.doc)), reasons.brokenRules.code)
		);
		expect(club.server.events.filter(({ event }) => event === 'rule-broken')).toHaveLength(1);
	});

	test.each([
		['another’s log', { client: annsLog, clock: 1 }],
		['the server’s own log', { client: 1, clock: 0 }],
		['the server’s stamps', { client: 1, clock: 0, root: 'stamps' }]
	])('extending %s: told to fetch anew, in the end closed, never taken', async (_, place) => {
		const club = await openTestClub();
		await unharmed(club, async () => {
			const eve = await club.device('eve eve-phone', evesLog);
			const text = entryText(5, { by: 'eve', device: 'eve-phone' });
			eve.sendUpdate(handMade({ ...place, text }));
			await until('"fetch anew"', () => eve.has('fetch-anew'));
			for (let frame = 0; frame < 70; frame += 1) eve.sendUpdate(handMade({ ...place, text }));
			await until('Eve to be closed', () => eve.closed.length > 0);
			expect(eve.closed[0]).toBe(reasons.tooMuch.code);
			expect(club.server.events.map(({ event }) => event)).toContain('foreign-structs');
			eve.disconnect();
		});
	});

	test('another author, another’s device: refused by id, from a log of one’s own too', async () => {
		const club = await openTestClub();
		await unharmed(club, async () => {
			const eve = await club.device('eve eve-phone', evesLog);
			eve.add(entryText(7, { by: 'eve', device: 'ann-phone' }));
			await until('the refusal', () => eve.refused.get(entryId(7)) === 'not-yours');
			eve.add(entryText(8, { by: 'ann', device: 'ann-phone' }));
			await until('the answer', () => eve.has('fetch-anew'));
			expect(eve.shared.size).toBe(0);
			eve.disconnect();
		});
	});

	test.each([
		['random frames', () => randomBytes(200)],
		['an unknown type of frame', () => new Uint8Array([99, 1, 2])],
		['an empty frame', () => new Uint8Array()],
		['a message that is no JSON', () => new Uint8Array([10, 2, 123, 123])]
	])('%s: closed, nobody else is touched', async (_, frame) => {
		const club = await openTestClub();
		await unharmed(club, () => closesEve(club, (eve) => eve.sendRaw(frame()), reasons.brokenRules.code));
	});

	test('a frame of 90 MiB: closed before it is read', async () => {
		const club = await openTestClub();
		// 1009: message too big (RFC 6455, section 7.4.1).
		await unharmed(club, () => closesEve(club, (eve) => eve.sendRaw(new Uint8Array(90 * 2 ** 20)), 1009));
	});

	test('a flood of frames: closed, may come again', async () => {
		const club = await openTestClub();
		await unharmed(club, () =>
			closesEve(
				club,
				(eve) => {
					for (let frame = 0; frame < 1_500; frame += 1) eve.sendRaw(new Uint8Array([3]));
				},
				reasons.tooMuch.code
			)
		);
	});

	test('2,000 updates after a gap are not taken and cost nothing to others', async () => {
		const club = await openTestClub();
		await unharmed(club, async () => {
			const eve = await club.device('eve eve-phone', evesLog);
			for (let clock = 1; clock < 200; clock += 1)
				eve.sendUpdate(
					handMade({ client: evesLog, clock, text: entryText(clock, { by: 'eve', device: 'eve-phone' }) })
				);
			await until('"send from"', () => eve.has('send-from'));
			await until('"log damaged"', () => eve.has('log-damaged'));
			expect(eve.shared.size).toBe(0);
			eve.disconnect();
		});
	});

	test('a log continued after another has it: a changed text of one’s own struct means "log damaged"', async () => {
		const club = await openTestClub();
		const ann = await club.device('ann ann-phone', annsLog);
		ann.add(entryText(1));
		await until('the answer', () => ann.shared.size === 1);
		ann.sendUpdate(handMade({ client: annsLog, clock: 0, text: entryText(2) }));
		await until('"log damaged"', () => ann.has('log-damaged'));
		ann.add(entryText(3));
		await until('the next entry from a new log', () => ann.shared.has(entryId(3)));
	});

	test('a client id below the range means "log damaged", not a close', async () => {
		const club = await openTestClub();
		const ann = await club.device('ann ann-phone', 77);
		ann.add(entryText(1));
		await until('"log damaged"', () => ann.has('log-damaged'));
		expect(ann.closed).toEqual([]);
		expect(ann.shared.size).toBe(0);
	});

	test('a signed-out request, a foreign audience, a foreign club, an old app: closed with a reason', async () => {
		const club = await openTestClub({
			mayOpen: (member, _, audience) => audience === 'club' || member === 'olga'
		});
		const manifest = await club.server.ledger.manifest(clubId, ['club', 'officers']);
		const [open, officers] = manifest.audiences.map(({ document }) => document);
		const codeOf = (path: string, who?: string) =>
			new Promise<number>((done, failed) => {
				const headers: Record<string, string> = who ? { 'x-who': who } : {};
				const socket = new WebSocket(`ws://127.0.0.1:${club.server.port}${path}`, { headers });
				socket.on('close', done);
				socket.on('error', failed);
			});
		const query = `?edition=${manifest.edition}&protocol=1`;
		expect(await codeOf(`/sync/${clubId}/${open}${query}`)).toBe(reasons.signedOut.code);
		expect(await codeOf(`/sync/${clubId}/${officers}${query}`, 'eve eve-phone')).toBe(
			reasons.notAllowed.code
		);
		expect(await codeOf(`/sync/club-2/${open}${query}`, 'eve eve-phone')).toBe(reasons.notAllowed.code);
		expect(await codeOf(`/sync/${clubId}/nowhere${query}`, 'eve eve-phone')).toBe(reasons.newEdition.code);
		expect(await codeOf(`/sync/${clubId}/${open}?edition=old&protocol=1`, 'eve e')).toBe(
			reasons.newEdition.code
		);
		expect(await codeOf(`/sync/${clubId}/${open}?edition=${manifest.edition}`, 'eve e')).toBe(
			reasons.appTooOld.code
		);
	});

	test('a page of another origin may not connect', async () => {
		const club = await openTestClub();
		const manifest = await club.server.ledger.manifest(clubId, ['club']);
		const path = `/sync/${clubId}/${manifest.audiences[0]!.document}?edition=${manifest.edition}&protocol=1`;
		const socket = new WebSocket(`ws://127.0.0.1:${club.server.port}${path}`, {
			headers: { 'x-who': 'ann ann-phone', origin: 'https://elsewhere.example' }
		});
		const code = await new Promise((done) => socket.on('close', done));
		expect(code).toBe(reasons.notAllowed.code);
	});

	test('one device opens no more sockets than allowed; others get in', async () => {
		const club = await openTestClub();
		for (let socket = 0; socket < limits.maxSocketsPerDevice; socket += 1)
			await club.device('eve eve-phone', evesLog + socket);
		const another = await club.deviceOffline('eve eve-phone', evesLog + 99);
		another.connect();
		await until('the socket to be closed', () => another.closed.length > 0);
		expect(another.closed[0]).toBe(reasons.tooMuch.code);
		another.disconnect();
		await club.device('ann ann-phone', annsLog);
	});

	test('1,000 half-open connections keep nobody out', async () => {
		const club = await openTestClub();
		const sockets = Array.from({ length: 1_000 }, () => createConnection(club.server.port, '127.0.0.1'));
		for (const socket of sockets) socket.on('error', () => {});
		onTestFinished(() => sockets.forEach((socket) => socket.destroy()));
		await until('all to be open', () => sockets.every((socket) => !socket.connecting));
		for (const socket of sockets) socket.write('GET /sync/club-1/x HTTP/1.1\r\nUpgrade: websocket\r\n');
		await unharmed(club, async () => {});
	});

	test('sign-out closes a device’s sockets, and a session that ended is found by looking again', async () => {
		let eveMay = true;
		const club = await openTestClub({ mayOpen: (member) => member !== 'eve' || eveMay });
		const ann = await club.device('ann ann-phone', annsLog);
		const eve = await club.device('eve eve-phone', evesLog);
		const other = await club.device('eve eve-tablet', evesLog + 1);
		club.server.sync.disconnect({ member: 'eve', device: 'eve-phone' }, 'signedOut');
		await until('the phone to be closed', () => eve.closed[0] === reasons.signedOut.code);
		expect(other.closed).toEqual([]);
		eveMay = false;
		await club.server.sync.recheck();
		await until('the tablet to be closed', () => other.closed[0] === reasons.notAllowed.code);
		expect(ann.closed).toEqual([]);
	});
});
