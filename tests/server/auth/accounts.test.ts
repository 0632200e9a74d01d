import { describe, expect, test } from 'vitest';
import { addClub, addPerson, caller, codeOf, openTestApp, otherBrowser, password } from '../http/testApp.ts';

describe('sign-in', () => {
	test('says the same whether the name or the password is wrong, or the member left', async () => {
		const app = await openTestApp();
		await addClub(app);
		const failure = async (name: string, given: string) => {
			try {
				await app.accounts.signIn(name, given, caller);
			} catch (error) {
				const { code, status, message, detail } = error as {
					code: string;
					status: number;
					message: string;
					detail: string;
				};
				return { code, status, message, detail };
			}
			throw new Error('signed in');
		};
		const wrongPassword = await failure('ada', 'wrong wrong wrong');
		expect(wrongPassword.code).toBe('sign-in-failed');
		expect(await failure('nobody', 'wrong wrong wrong')).toEqual(wrongPassword);
		expect(await failure('', '')).toEqual(wrongPassword);
		expect(await failure('ada', '')).toEqual(wrongPassword);
	});

	test('does not mind case, width or spaces around the name', async () => {
		const app = await openTestApp();
		await addClub(app);
		for (const name of ['ADA', ' ada ', '\uff41da']) await app.accounts.signIn(name, password, caller);
	});

	test('stops taking tries for a name after ten failures, whether the name exists or not, for a quarter of an hour', async () => {
		const app = await openTestApp();
		await addClub(app);
		for (const name of ['ada', 'nobody']) {
			for (let i = 0; i < 10; i++) {
				// From ten addresses: no single one is over its own limit.
				const from = { ...caller, address: `192.0.2.${name.length}${i}` };
				expect(await codeOf(app.accounts.signIn(name, 'wrong wrong wrong', from))).toBe('sign-in-failed');
			}
			expect(await codeOf(app.accounts.signIn(name, password, otherBrowser))).toBe('too-many-tries');
		}
		app.clock.now += 15 * 60_000;
		await app.accounts.signIn('ada', password, otherBrowser);
	}, 20_000);

	test('stops taking codes from one address after thirty that were wrong', async () => {
		const app = await openTestApp();
		await addClub(app);
		for (let i = 0; i < 30; i++)
			expect(await codeOf(app.accounts.look(`wrong-${i}`, ['invitation'], caller))).toBe('link-failed');
		expect(await codeOf(app.accounts.look('wrong', ['invitation'], caller))).toBe('too-many-tries');
		expect(await codeOf(app.accounts.look('wrong', ['invitation'], otherBrowser))).toBe('link-failed');
	});
});

describe('a change of password', () => {
	test('ends all sessions, tells the sockets, and starts a new one', async () => {
		const app = await openTestApp();
		const ada = await addClub(app);
		const before = [
			await app.sessions.start(ada.account, 'phone'),
			await app.sessions.start(ada.account, 'desk')
		];
		const told: unknown[] = [];
		app.sessions.onEnded((ended) => told.push(ended));
		const { secret } = await app.accounts.changePassword(ada.account, password, 'warm moss lantern', caller);
		for (const old of before) expect(await app.sessions.read(old)).toBeNull();
		expect((await app.sessions.read(secret))!.account).toBe(ada.account);
		expect(told).toEqual([{ account: ada.account }]);
	});

	test('needs the password of now and a strong new one; nothing changes otherwise', async () => {
		const app = await openTestApp();
		const ada = await addClub(app);
		const change = (now: string, next: string) => app.accounts.changePassword(ada.account, now, next, caller);
		expect(await codeOf(change('wrong wrong wrong', 'warm moss lantern'))).toBe('sign-in-failed');
		expect(await codeOf(change(password, 'short'))).toBe('weak-password');
		await app.accounts.signIn('ada', password, caller);
	});

	test('raced with sign-ins by the old password, leaves no session of the old password', async () => {
		const app = await openTestApp();
		const ada = await addClub(app);
		const tries = Array.from({ length: 6 }, () => app.accounts.signIn('ada', password, otherBrowser));
		const [changed, ...ends] = await Promise.allSettled([
			app.accounts.changePassword(ada.account, password, 'warm moss lantern', caller),
			...tries
		]);
		expect(changed.status).toBe('fulfilled');
		for (const end of ends) {
			// Either it failed, or it came first and was ended by the change.
			if (end.status === 'fulfilled') expect(await app.sessions.read(end.value.secret)).toBeNull();
		}
		expect(await app.db.selectFrom('session').select('hash').execute()).toHaveLength(1);
	}, 20_000);
});

test('the first officer opens a club: record, membership, role and room stand in the club state', async () => {
	const app = await openTestApp();
	const { token } = await app.invitations.make({ purpose: 'first-officer' });
	const club = { name: 'Tern Bay', timeZone: 'Europe/London', region: 'North' };
	const room = { name: 'Harbour room', region: 'North', house: '' };
	const given = { signInName: 'wren', password };
	const opened = await app.accounts.openFirstClub(token, club, 'Wren', given, room, caller);
	const seat = (await app.sessions.read(opened.secret))!.clubs[0]!;
	const state = await app.states.of(opened.club!);
	expect(state.club).toMatchObject({ name: 'Tern Bay', timeZone: 'Europe/London', region: 'North' });
	expect(state.members.get(seat.member)!.roles).toMatchObject([{ role: 'officer', of: null }]);
	const [id, there] = [...state.rooms][0]!;
	expect(there).toMatchObject({ name: 'Harbour room', keepers: [seat.member] });
	expect(state.members.get(seat.member)!.rooms).toEqual([id]);
	expect(
		await codeOf(
			app.accounts.openFirstClub(token, club, 'Eve', { ...given, signInName: 'eve' }, null, caller)
		)
	).toBe('link-failed');
});

test('no document holds a sign-in name, e-mail, phone or street', async () => {
	const app = await openTestApp();
	const ada = await addClub(app);
	const secrets = {
		email: 'ada@mail.example',
		phone: '+44 20 7946 0000',
		street: '7 Quay Street',
		guardian: 'Uncle Bo'
	};
	await app.db
		.updateTable('account')
		.set({ ...secrets, signInName: 'secret-sign-in-name' })
		.execute();
	await addPerson(app, 'club', 'ben');
	await app.office.rename('club', ada.member, 'Ada L', ada.member);
	const texts = (await app.ledger.openRows('club', 'club')).map(({ text }) => text).join('\n');
	expect(texts).toContain('Ada L');
	for (const secret of [...Object.values(secrets), 'secret-sign-in-name'])
		expect(texts).not.toContain(secret);
});
