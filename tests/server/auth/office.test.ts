import { describe, expect, test } from 'vitest';
import { contactsOf, contactsOpenTo } from '#server/club/contacts.ts';
import { createClubRecord } from '#server/club/clubRecord.ts';
import { renameMember } from '#server/club/members.ts';
import type { ExchangeStage } from '#records/state.ts';
import { addClub, addPerson, codeOf, openTestApp } from '../http/testApp.ts';

describe('roles', () => {
	test('given and ended, they stand in the table and in the club state', async () => {
		const app = await openTestApp();
		const ada = await addClub(app);
		const ben = await addPerson(app, 'club', 'ben');
		const role = { member: ben.member, role: 'coordinator', of: 'line-1' } as const;
		await app.office.giveRole('club', role, ada.member);
		await app.office.giveRole('club', role, ada.member);
		const rolesThere = async () =>
			(await app.states.of('club')).members.get(ben.member)!.roles.map((held) => [held.role, held.of]);
		expect(await rolesThere()).toEqual([['coordinator', 'line-1']]);
		await app.office.endRole('club', role, ada.member);
		expect(await rolesThere()).toEqual([]);
		expect(
			await app.db.selectFrom('role').select('member').where('member', '=', ben.member).execute()
		).toEqual([]);
	});

	test('the last officer cannot stop being one, nor leave; with another it is allowed', async () => {
		const app = await openTestApp();
		const ada = await addClub(app);
		const ben = await addPerson(app, 'club', 'ben');
		const officer = { member: ada.member, role: 'officer', of: null } as const;
		expect(await codeOf(app.office.endRole('club', officer, ada.member))).toBe('last-officer');
		expect(await codeOf(app.office.leave('club', ada.member, ada.member))).toBe('last-officer');
		await app.office.giveRole('club', { ...officer, member: ben.member }, ada.member);
		await app.office.leave('club', ada.member, ada.member);
	});

	test('an officer is of the club, everybody else of something; members of other clubs are not found', async () => {
		const app = await openTestApp();
		const ada = await addClub(app);
		const other = await addClub(app, 'other', ada.account);
		const give = (member: string, role: 'officer' | 'deputy', of: string | null) =>
			app.office.giveRole('club', { member, role, of }, ada.member);
		expect(await codeOf(give(ada.member, 'officer', 'line-1'))).toBe('not-understood');
		expect(await codeOf(give(ada.member, 'deputy', null))).toBe('not-understood');
		expect(await codeOf(give(other.member, 'officer', null))).toBe('not-found');
		expect(
			await codeOf(
				app.office.changeKeepers('club', other.room, { add: [ada.member], remove: [] }, ada.member)
			)
		).toBe('not-found');
		expect(
			await codeOf(
				app.office.changeKeepers('club', ada.room, { add: [other.member], remove: [] }, ada.member)
			)
		).toBe('not-found');
	});
});

test('leaving ends rooms and roles, hides the name, forgets contact details; coming back is the same member', async () => {
	const app = await openTestApp();
	const ada = await addClub(app);
	const ben = await addPerson(app, 'club', 'ben');
	await app.db.updateTable('account').set({ phone: '123' }).where('id', '=', ben.account).execute();
	await app.office.giveRole('club', { member: ben.member, role: 'deputy', of: 'line-1' }, ada.member);
	await app.office.leave('club', ben.member, ada.member);
	const left = await app.states.of('club');
	expect(left.members.get(ben.member)).toMatchObject({ name: 'former member 1', roles: [], rooms: [] });
	expect(left.members.get(ben.member)!.left).not.toBeNull();
	expect(left.rooms.get(ben.room)!.keepers).toEqual([]);
	const account = app.db.selectFrom('account').select('phone').where('id', '=', ben.account);
	expect(await account.executeTakeFirst()).toEqual({ phone: '' });

	const { token } = await app.office.invite('club', { name: '', room: null, guardian: '' }, ada.member);
	const given = { signInName: 'ben', password: 'three wet herons' };
	await app.accounts.acceptInvitation(token, 'Ben again', given, true, { address: '', browser: 'b' });
	const back = (await app.states.of('club')).members.get(ben.member)!;
	expect(back).toMatchObject({ name: 'Ben again', left: null });
});

test('an entry that a stopped process left waiting reaches the ledger at the next start, once', async () => {
	const app = await openTestApp();
	const ada = await addClub(app);
	const asked = { by: ada.member, at: app.clock.now };
	await app.db
		.transaction()
		.execute((transaction) => renameMember(transaction, app.record, 'club', ada.member, 'Ada L', asked));
	expect((await app.states.of('club')).members.get(ada.member)!.name).toBe('ada');

	// The process stopped after the ledger had written, before the row was deleted: the same entries come again.
	const waiting = await app.db.selectFrom('clubEntry').selectAll().execute();
	await createClubRecord(app.db, app.ledger).flushAll();
	const rows = (await app.ledger.openRows('club', 'club')).length;
	await app.db.insertInto('clubEntry').values(waiting).execute();
	await createClubRecord(app.db, app.ledger).flushAll();
	expect((await app.states.of('club')).members.get(ada.member)!.name).toBe('Ada L');
	expect(await app.ledger.openRows('club', 'club')).toHaveLength(rows);
	expect(await app.db.selectFrom('clubEntry').select('id').execute()).toEqual([]);
});

test('entries of one millisecond rank in the record as they were said, and so with a clock set back', async () => {
	const app = await openTestApp();
	const ada = await addClub(app);
	for (const [name, step] of [
		['One', 0],
		['Two', 0],
		['Three', -60_000],
		['Four', 0]
	] as const) {
		app.clock.now += step;
		await app.office.rename('club', ada.member, name, ada.member);
	}
	const ids = (await app.ledger.openRows('club', 'club')).map(({ id }) => id);
	expect(ids).toEqual([...ids].sort());
	expect((await app.states.of('club')).members.get(ada.member)!.name).toBe('Four');
});

test('two changes at once keep their order in the record', async () => {
	const app = await openTestApp();
	const ada = await addClub(app);
	await Promise.all(
		['One', 'Two', 'Three'].map((name) => app.office.rename('club', ada.member, name, ada.member))
	);
	const { name } = await app.db
		.selectFrom('member')
		.select('name')
		.where('id', '=', ada.member)
		.executeTakeFirstOrThrow();
	const written = (await app.ledger.openRows('club', 'club'))
		.map(({ text }) => JSON.parse(text) as { kind: string; body: { name: string } })
		.filter(({ kind }) => kind === 'club/memberRenamed');
	expect(written.at(-1)!.body.name).toBe(name);
});

describe('contact details', () => {
	const sides = { givers: ['ada', 'ann'], receivers: ['ben'] };
	const stages: [ExchangeStage, boolean][] = [
		['proposed', false],
		['asked', false],
		['agreed', true],
		['bagged', true],
		['handed over', true],
		['arrived', true],
		['settled', false],
		['declined', false],
		['put off', false],
		['called off', false],
		['failed', false]
	];
	test.each(stages)('of an exchange that is %s open to the other side: %s', (stage, open) => {
		expect(contactsOpenTo('ada', { stage, ...sides })).toEqual(open ? ['ben'] : []);
		expect(contactsOpenTo('ben', { stage, ...sides })).toEqual(open ? ['ada', 'ann'] : []);
		expect(contactsOpenTo('eve', { stage, ...sides })).toEqual([]);
	});
	test('somebody on both sides sees the others, not the own', () => {
		const both = { stage: 'agreed' as const, givers: ['ada'], receivers: ['ada', 'ben'] };
		expect(contactsOpenTo('ada', both)).toEqual(['ben']);
	});
	test('of a minor are the guardian’s words alone', async () => {
		const app = await openTestApp();
		const ada = await addClub(app);
		await app.db
			.updateTable('account')
			.set({ phone: '123', email: 'a@b.example', guardian: 'Bo, 456' })
			.execute();
		const shown = { member: ada.member, name: 'ada', email: '', phone: '', street: '', guardian: 'Bo, 456' };
		expect(await contactsOf(app.db, 'club', [ada.member])).toEqual([shown]);
		expect(await contactsOf(app.db, 'other', [ada.member])).toEqual([]);
	});
});
