import { expect, test } from 'vitest';
import { hashToken } from '#server/auth/token.ts';
import { addClub, addPerson, openTestApp } from '../http/testApp.ts';

const dayMs = 24 * 60 * 60_000;

test('unknown, ended and expired sessions look the same: nobody', async () => {
	const app = await openTestApp();
	const { account } = await addClub(app);
	const [ended, expired] = [await app.sessions.start(account, 'b'), await app.sessions.start(account, 'b')];
	await app.sessions.end(ended);
	await app.db
		.updateTable('session')
		.set({ expiresAt: Date.now() - 1 })
		.where('hash', '=', hashToken(expired))
		.execute();
	for (const secret of [ended, expired, 'unknown', '', null, undefined])
		expect(await app.sessions.read(secret)).toBeNull();
});

test('the end is read from the table at every request', async () => {
	const app = await openTestApp();
	const { account } = await addClub(app);
	const secret = await app.sessions.start(account, 'b');
	expect(await app.sessions.read(secret)).not.toBeNull();
	await app.db
		.updateTable('session')
		.set({ expiresAt: Date.now() - 1 })
		.execute();
	expect(await app.sessions.read(secret)).toBeNull();
});

test('a session in use lasts on; the table never holds its secret', async () => {
	const app = await openTestApp();
	const { account } = await addClub(app);
	const secret = await app.sessions.start(account, 'b');
	const soon = Date.now() + 10 * dayMs;
	await app.db.updateTable('session').set({ expiresAt: soon }).execute();
	await app.sessions.read(secret);
	const row = await app.db.selectFrom('session').selectAll().executeTakeFirstOrThrow();
	expect(Number(row.expiresAt)).toBeGreaterThan(soon);
	expect(JSON.stringify(row)).not.toContain(secret);
	expect((await app.sessions.read(secret))?.sessionId).not.toContain(secret);
});

test('the same member on the same browser is the same device again; another member or browser is another', async () => {
	const app = await openTestApp();
	const ada = await addClub(app);
	const ben = await addPerson(app, 'club', 'ben');
	const deviceOf = async (account: string, browser: string) =>
		(await app.sessions.read(await app.sessions.start(account, browser)))!.clubs[0]!.device;
	const first = await deviceOf(ada.account, 'kitchen tablet');
	expect(await deviceOf(ada.account, 'kitchen tablet')).toBe(first);
	expect(await deviceOf(ada.account, 'phone')).not.toBe(first);
	expect(await deviceOf(ben.account, 'kitchen tablet')).not.toBe(first);
});

test('two first requests at once make one device', async () => {
	const app = await openTestApp();
	const { account } = await addClub(app);
	const secret = await app.sessions.start(account, 'phone');
	const read = await Promise.all([
		app.sessions.read(secret),
		app.sessions.read(secret),
		app.sessions.read(secret)
	]);
	expect(new Set(read.map((session) => session!.clubs[0]!.device)).size).toBe(1);
});

test('a person in several clubs has a member and a device of each; a confined session sees one club', async () => {
	const app = await openTestApp();
	const ada = await addClub(app, 'first');
	await addClub(app, 'second', ada.account);
	const session = await app.sessions.read(await app.sessions.start(ada.account, 'phone'));
	expect(session!.clubs.map(({ club, member }) => [club, member])).toEqual([
		['first', 'first-ada'],
		['second', 'second-ada-second']
	]);
	expect(new Set(session!.clubs.map(({ device }) => device)).size).toBe(2);
	const confined = await app.sessions.read(await app.sessions.start(ada.account, 'phone', 'second'));
	expect(confined).toMatchObject({ confined: true, clubs: [{ club: 'second' }] });
});

test('whoever left the club has no seat there at the next request', async () => {
	const app = await openTestApp();
	const ada = await addClub(app);
	const ben = await addPerson(app, 'club', 'ben');
	const secret = await app.sessions.start(ben.account, 'phone');
	expect((await app.sessions.read(secret))!.clubs).toHaveLength(1);
	await app.office.leave('club', ben.member, ada.member);
	expect((await app.sessions.read(secret))!.clubs).toEqual([]);
});

test('the cookie is for https only when the page came over https, and never for scripts', async () => {
	const app = await openTestApp();
	expect(app.sessions.cookie(true)).toMatchObject({
		secure: true,
		httpOnly: true,
		sameSite: 'lax',
		path: '/'
	});
	expect(app.sessions.cookie(false).secure).toBe(false);
});
