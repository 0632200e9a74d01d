import { expect, test } from 'vitest';
import { mayOpen, opens } from '#server/club/mayOpen.ts';
import { addClub, addPerson, openTestApp } from '../http/testApp.ts';

const kept = 'room:harbour:e1';
const rows: [who: string, standing: Parameters<typeof opens>[0], may: string[]][] = [
	['a keeper', { isMember: true, roles: [], roomEpochs: ['harbour:e1'] }, ['club', kept]],
	['a member without a room', { isMember: true, roles: [], roomEpochs: [] }, ['club']],
	['an officer', { isMember: true, roles: ['officer'], roomEpochs: [] }, ['club', 'officers']],
	['a coordinator', { isMember: true, roles: ['coordinator'], roomEpochs: [] }, ['club', 'officers']],
	['a deputy', { isMember: true, roles: ['deputy'], roomEpochs: [] }, ['club', 'officers']],
	['a runner', { isMember: true, roles: ['runner'], roomEpochs: [] }, ['club']],
	['an officer who left', { isMember: false, roles: ['officer'], roomEpochs: ['harbour:e1'] }, []],
	['a stranger', { isMember: false, roles: [], roomEpochs: [] }, []]
];
const audiences = [
	'club',
	'officers',
	kept,
	'room:harbour:e2',
	'room:mill:e1',
	'room:',
	'room',
	'Club',
	'club ',
	'',
	'all'
];

test.each(rows)('%s opens what the table says and nothing else', (_who, standing, may) => {
	expect(audiences.filter((audience) => opens(standing, audience))).toEqual(may);
});

test('asked of the tables: keepers read their epoch, later keepers only theirs, other clubs nothing', async () => {
	const app = await openTestApp();
	const ada = await addClub(app);
	const ben = await addPerson(app, 'club', 'ben');
	const other = await addClub(app, 'other', ada.account);
	const epochOf = async () =>
		(await app.db.selectFrom('room').select('epoch').where('id', '=', ben.room).executeTakeFirstOrThrow())
			.epoch;
	const may = (member: string, epoch: string, club = 'club') =>
		mayOpen(app.db, member, club, `room:${ben.room}:${epoch}`);

	const first = await epochOf();
	expect([await may(ben.member, first), await may(ada.member, first)]).toEqual([true, false]);

	await app.office.changeKeepers('club', ben.room, { add: [ada.member], remove: [] }, ada.member);
	const second = await epochOf();
	expect(second).not.toBe(first);
	expect([
		await may(ada.member, first),
		await may(ada.member, second),
		await may(ben.member, second)
	]).toEqual([false, true, true]);
	expect(await app.ledger.audiences('club')).toContain(`room:${ben.room}:${second}`);

	await app.office.shareEpoch('club', ben.room, first, ben.member);
	expect(await may(ada.member, first)).toBe(true);

	await app.office.changeKeepers('club', ben.room, { add: [], remove: [ben.member] }, ada.member);
	const third = await epochOf();
	expect([await may(ben.member, third), await may(ben.member, second), await may(ada.member, third)]).toEqual(
		[false, true, true]
	);

	expect(await may(other.member, first)).toBe(false);
	expect(await may(ben.member, first, 'other')).toBe(false);
	expect(await mayOpen(app.db, ada.member, 'other', 'club')).toBe(false);
});

test('an epoch is shared only by somebody who may read it', async () => {
	const app = await openTestApp();
	const ada = await addClub(app);
	const ben = await addPerson(app, 'club', 'ben');
	const { epoch } = await app.db
		.selectFrom('room')
		.select('epoch')
		.where('id', '=', ben.room)
		.executeTakeFirstOrThrow();
	await expect(app.office.shareEpoch('club', ben.room, epoch, ada.member)).rejects.toMatchObject({
		code: 'not-allowed'
	});
});
