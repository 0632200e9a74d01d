import { beforeAll, expect, test } from 'vitest';
import type { Manifest } from '#protocol/messages.ts';
import type { Me, NumbersGiven } from '#protocol/api.ts';
import { until } from '#tests/helpers/until.ts';
import { ensureBuilt } from './built.ts';
import { emptyFolder, signInToDemo, start } from './startProcess.ts';

beforeAll(ensureBuilt, 180_000);

test('what officers change is closed to a keeper; each hears only what is theirs; numbers asked twice come once', async () => {
	const demo = await start('server/commands/demo.ts', { TMPDIR: await emptyFolder() });
	await until('the accounts', () => (demo.printed().match(/password "/g) ?? []).length === 3);
	const as = async (nth: number) => {
		const cookie = await signInToDemo(demo.address, demo.printed(), nth);
		const send = (path: string, body?: unknown) =>
			fetch(demo.address + path, {
				headers: { cookie, 'content-type': 'application/json' },
				...(body === undefined ? {} : { method: 'POST', body: JSON.stringify(body) })
			});
		const me = (await (await send('/api/me')).json()) as Me;
		return { send, seat: me.clubs[0]!, cookie };
	};
	const officer = await as(0);
	// The first of the demo's keepers who coordinates nothing.
	const keepersThere = [await as(1), await as(2)];
	const keeper = keepersThere.find(
		({ seat }) => !seat.roles.some(({ role }) => /coordinator|deputy/.test(role))
	)!;
	expect(officer.seat.roles.map(({ role }) => role)).toContain('officer');
	expect(keeper.seat.roles.map(({ role }) => role)).not.toContain('officer');
	const club = `/api/clubs/${keeper.seat.club}`;
	const other = officer.seat.member;

	const forOfficers: [string, unknown][] = [
		['members', { do: 'leave', member: other }],
		['members', { do: 'rename', member: other, name: 'X' }],
		['invitations', { for: 'newcomer', name: 'X' }],
		['invitations', { for: 'member', member: other }],
		['roles', { do: 'give', member: keeper.seat.member, role: 'officer', of: null }],
		['rooms', { do: 'open', name: 'X', region: '', house: '', keepers: [keeper.seat.member] }],
		['keepers', { room: 'any', add: [keeper.seat.member] }],
		['erase', { ids: ['any'] }],
		['bring', { texts: ['{}'] }]
	];
	for (const [path, body] of forOfficers) {
		const refused = await keeper.send(`${club}/${path}`, body);
		expect(refused.status, path).toBe(403);
		expect(await refused.json()).toMatchObject({ code: 'not-allowed', sentence: 'You may not do this.' });
	}
	for (const path of ['manifest', 'volumes/0', 'contacts/0']) {
		// A club that is another's and one that never was look the same.
		expect((await keeper.send(`/api/clubs/no-such-club/${path}`)).status, path).toBe(403);
	}
	expect((await keeper.send(`${club}/contacts/no-such-exchange`)).status).toBe(403);
	expect((await officer.send(`${club}/roles`, { do: 'give' })).status).toBe(400);
	expect((await officer.send(`${club}/volumes/0`)).status).toBe(404);

	const audiencesOf = async ({ send }: typeof keeper) =>
		((await (await send(`${club}/manifest`)).json()) as Manifest).audiences.map(({ audience }) => audience);
	const [officers, keepers] = [await audiencesOf(officer), await audiencesOf(keeper)];
	expect(officers).toEqual(expect.arrayContaining(['club', 'officers']));
	expect(keepers).toContain('club');
	expect(keepers).not.toContain('officers');
	const roomsOf = (audiences: string[]) => audiences.filter((audience) => audience.startsWith('room:'));
	expect(roomsOf(keepers).length).toBeGreaterThan(0);
	expect(roomsOf(keepers).filter((audience) => officers.includes(audience))).toEqual([]);

	const numbers = async (request: string, { send } = keeper) =>
		((await (await send(`${club}/numbers`, { request, blocks: 2 })).json()) as NumbersGiven).blocks;
	const first = await numbers('one');
	expect(await numbers('one')).toEqual(first);
	const taken = new Set(first.map((block) => block.first));
	for (const block of [...(await numbers('two')), ...(await numbers('one', officer))])
		expect(taken).not.toContain(block.first);

	// The own name is one's own to change, and stands in the record; signing in again is the same device.
	expect(
		(await keeper.send(`${club}/members`, { do: 'rename', member: keeper.seat.member, name: 'Newt' })).status
	).toBe(200);
	const browser = keeper.cookie.split('; ').find((part) => part.startsWith('kithline_browser='))!;
	const again = await fetch(`${demo.address}/api/me`, { headers: { cookie: keeper.cookie } });
	expect(((await again.json()) as Me).clubs[0]).toMatchObject({ name: 'Newt', device: keeper.seat.device });
	expect(browser.length).toBeGreaterThan(40);
	expect(await demo.stop('SIGTERM')).toBe(0);
}, 180_000);
