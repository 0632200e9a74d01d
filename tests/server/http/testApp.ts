/** The server's parts over a throw-away file and a clock that the test moves; taken down when the test has ended. */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { insertAccount, type Caller } from '#server/auth/accounts.ts';
import { hashPassword } from '#server/auth/passwords.ts';
import { joinClub, openClub } from '#server/club/members.ts';
import { giveRole } from '#server/club/roles.ts';
import { openRoom } from '#server/club/rooms.ts';
import { readConfig } from '#server/config.ts';
import { createApp, type App } from '#server/http/app.ts';

/** lucia reads the real clock for the end of a session, so a test's clock starts there. */
export interface TestApp extends App {
	readonly clock: { now: number };
	readonly folder: string;
}

export const caller: Caller = { address: '192.0.2.1', browser: 'browser-one-token' };
export const otherBrowser: Caller = { address: '192.0.2.2', browser: 'browser-two-token' };

export async function openTestApp(): Promise<TestApp> {
	const folder = await mkdtemp(join(tmpdir(), 'kithline-test-'));
	const clock = { now: Date.now() };
	const app = await createApp(readConfig({ KITHLINE_DATA: folder }), () => clock.now);
	onTestFinished(async () => {
		await app.close();
		await rm(folder, { recursive: true });
	});
	return Object.assign(app, { clock, folder });
}

export const password = 'three wet herons';

export interface TestPerson {
	readonly account: string;
	readonly member: string;
	readonly room: string;
}

/** A person with account, membership and a room of the same name. Ids say whose they are. */
export async function addPerson(
	app: TestApp,
	club: string,
	name: string,
	account?: string
): Promise<TestPerson> {
	const passwordHash = await hashPassword(password);
	const asked = { by: null, at: app.clock.now };
	const ids = { member: `${club}-${name}`, room: `room-${club}-${name}` };
	const made = await app.db.transaction().execute(async (transaction) => {
		const own =
			account ?? (await insertAccount(transaction, { signInName: name, passwordHash }, app.clock.now));
		await joinClub(transaction, app.record, club, { id: ids.member, account: own, name }, asked);
		const room = { id: ids.room, name: `${name}’s room`, region: 'North', house: '', keepers: [ids.member] };
		await openRoom(transaction, app.record, club, room, asked);
		return own;
	});
	await app.record.flush(club);
	return { account: made, ...ids };
}

/** A club with an officer called Ada, or somebody else; with `account` one who has an account already. */
export async function addClub(
	app: TestApp,
	id = 'club',
	account?: string,
	name = 'ada'
): Promise<TestPerson> {
	const asked = { by: null, at: app.clock.now };
	const club = { id, name: `Club ${id}`, timeZone: 'Europe/London', region: 'North' };
	await app.db.transaction().execute((transaction) => openClub(transaction, app.record, club, asked));
	const ada = await addPerson(app, id, account ? `ada-${id}` : name, account);
	await app.db
		.transaction()
		.execute((transaction) =>
			giveRole(transaction, app.record, id, { member: ada.member, role: 'officer', of: null }, asked)
		);
	await app.record.flush(id);
	return ada;
}

/** The code of the AppError that a promise ends in; fails when it ends well or otherwise. */
export async function codeOf(promise: Promise<unknown>): Promise<string> {
	try {
		await promise;
	} catch (error) {
		const { code } = error as { code?: string };
		if (code) return code;
		throw error;
	}
	throw new Error('it ended well');
}
