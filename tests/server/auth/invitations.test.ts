import { describe, expect, test } from 'vitest';
import { linkLastsMs } from '#server/auth/invitations.ts';
import { newCode, readCode } from '#server/auth/token.ts';
import {
	addClub,
	addPerson,
	caller,
	codeOf,
	openTestApp,
	otherBrowser,
	password,
	type TestApp
} from '../http/testApp.ts';

const nobody = { name: '', room: null, guardian: '' };

async function withInvitation() {
	const app = await openTestApp();
	const ada = await addClub(app);
	return { app, ada, made: await app.office.invite('club', nobody, ada.member) };
}

const accept = (app: TestApp, token: string, name: string) =>
	app.accounts.acceptInvitation(token, name, { signInName: name, password }, false, caller);

describe('an invitation', () => {
	test('works once: the second try meets the same answer as a link that never was', async () => {
		const { app, made } = await withInvitation();
		const { secret, club } = await accept(app, made.token, 'ben');
		expect(club).toBe('club');
		expect((await app.sessions.read(secret))!.clubs[0]).toMatchObject({
			club: 'club',
			name: 'ben',
			roles: []
		});
		expect(await codeOf(accept(app, made.token, 'cy'))).toBe('link-failed');
		expect(await codeOf(accept(app, 'never-was', 'cy'))).toBe('link-failed');
	});

	test('raced by ten, lets exactly one in and leaves nothing of the others', async () => {
		const { app, made } = await withInvitation();
		const names = Array.from({ length: 10 }, (_, i) => `racer-${i}`);
		const ends = await Promise.allSettled(names.map((name) => accept(app, made.token, name)));
		expect(ends.filter(({ status }) => status === 'fulfilled')).toHaveLength(1);
		for (const end of ends)
			if (end.status === 'rejected') expect(end.reason).toMatchObject({ code: 'link-failed' });
		expect(await app.db.selectFrom('account').select('id').execute()).toHaveLength(2);
		expect(await app.db.selectFrom('member').select('id').execute()).toHaveLength(2);
	});

	test('is not used up by looking, nor by a try that fails for another reason', async () => {
		const { app, made } = await withInvitation();
		await app.accounts.look(made.token, ['invitation'], caller);
		expect(await codeOf(accept(app, made.token, 'ada'))).toBe('name-taken');
		const weak = { signInName: 'ben', password: 'short' };
		expect(await codeOf(app.accounts.acceptInvitation(made.token, 'ben', weak, false, caller))).toBe(
			'weak-password'
		);
		await accept(app, made.token, 'ben');
	});

	test('opens with its twelve digits too, however they are typed; the table holds neither', async () => {
		const { app, made } = await withInvitation();
		const typed = made.code.replaceAll(' ', '-');
		expect((await app.accounts.look(typed, ['invitation'], caller)).id).toBe(made.id);
		const rows = JSON.stringify(await app.db.selectFrom('onceLink').selectAll().execute());
		expect(rows).not.toContain(made.token);
		expect(rows).not.toContain(readCode(made.code)!);
		expect(rows).not.toContain(readCode(made.code)!.slice(4));
	});

	test('ends after its time, and is no sign-in link', async () => {
		const { app, made } = await withInvitation();
		expect(await codeOf(app.accounts.useSignInLink(made.token, password, caller))).toBe('link-failed');
		app.clock.now += linkLastsMs.invitation;
		expect(await codeOf(accept(app, made.token, 'ben'))).toBe('link-failed');
		expect(await codeOf(app.accounts.look(made.code, ['invitation'], caller))).toBe('link-failed');
	});

	test('to share a room makes the newcomer its keeper, in the record too', async () => {
		const app = await openTestApp();
		const ada = await addClub(app);
		const made = await app.office.invite('club', { name: 'Ben', room: ada.room, guardian: '' }, ada.member);
		await accept(app, made.token, 'ben');
		const state = await app.states.of('club');
		const room = state.rooms.get(ada.room)!;
		expect(room.keepers).toHaveLength(2);
		expect(state.members.get(room.keepers[1]!)).toMatchObject({ name: 'ben' });
	});

	test('lets somebody in who has an account from another club, with its password only', async () => {
		const app = await openTestApp();
		await addClub(app, 'first');
		const second = await addClub(app, 'second', undefined, 'sol');
		const ben = await addPerson(app, 'first', 'ben');
		const made = await app.office.invite('second', nobody, second.member);
		const join = (given: string) =>
			app.accounts.acceptInvitation(
				made.token,
				'Benny',
				{ signInName: 'ben', password: given },
				true,
				caller
			);
		expect(await codeOf(join('wrong wrong wrong'))).toBe('sign-in-failed');
		const { secret } = await join(password);
		expect((await app.sessions.read(secret))!.account).toBe(ben.account);
		expect((await app.sessions.read(secret))!.clubs.map(({ club }) => club)).toEqual(['first', 'second']);
	}, 20_000);
});

describe('a sign-in link', () => {
	test('sets a new password, once, and signs out everywhere else', async () => {
		const app = await openTestApp();
		const ada = await addClub(app);
		const ben = await addPerson(app, 'club', 'ben');
		const before = await app.sessions.start(ben.account, 'phone');
		const made = await app.office.signInLink('club', ben.member, ada.member);
		const { secret } = await app.accounts.useSignInLink(made.token, 'warm moss lantern', otherBrowser);
		expect(await app.sessions.read(before)).toBeNull();
		expect((await app.sessions.read(secret))!.account).toBe(ben.account);
		expect(await codeOf(app.accounts.signIn('ben', password, caller))).toBe('sign-in-failed');
		await app.accounts.signIn('ben', 'warm moss lantern', caller);
		expect(await codeOf(app.accounts.useSignInLink(made.token, 'quiet copper kettle', caller))).toBe(
			'link-failed'
		);
	});

	test('a newer one takes the place of an older one', async () => {
		const app = await openTestApp();
		const ada = await addClub(app);
		const older = await app.office.signInLink('club', ada.member, ada.member);
		await app.office.signInLink('club', ada.member, ada.member);
		expect(await codeOf(app.accounts.look(older.token, ['sign-in'], caller))).toBe('link-failed');
	});

	test('of one club’s officer opens that club alone for somebody who is in another too, and keeps the password', async () => {
		const app = await openTestApp();
		const ada = await addClub(app, 'first');
		const second = await addClub(app, 'second', ada.account);
		const made = await app.office.signInLink('second', second.member, second.member);
		const { secret } = await app.accounts.useSignInLink(made.token, 'warm moss lantern', caller);
		expect(await app.sessions.read(secret)).toMatchObject({ confined: true, clubs: [{ club: 'second' }] });
		await app.accounts.signIn('ada', password, caller);
	});

	test('stops working when the member leaves', async () => {
		const app = await openTestApp();
		const ada = await addClub(app);
		const ben = await addPerson(app, 'club', 'ben');
		const made = await app.office.signInLink('club', ben.member, ada.member);
		await app.office.leave('club', ben.member, ada.member);
		expect(await codeOf(app.accounts.useSignInLink(made.token, 'warm moss lantern', caller))).toBe(
			'link-failed'
		);
	});
});

test('codes are twelve digits in three groups, and other input is none', () => {
	for (let i = 0; i < 200; i++) expect(newCode()).toMatch(/^\d{4} \d{4} \d{4}$/);
	expect(readCode('0123 4567 8901')).toBe('012345678901');
	expect(readCode('０１２３-4567.8901')).toBe('012345678901');
	for (const typed of ['', '0123 4567 890', '0123 4567 89012', 'abcd efgh ijkl'])
		expect(readCode(typed)).toBeNull();
});
