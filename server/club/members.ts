/** Joining, leaving, being called something else. Each is one transaction with the club's entry about it. */
import { v7 as newId } from 'uuid';
import type { Db, Tx } from './tables.ts';
import type { MemberId } from '#records/entry.ts';
import { AppError } from '../appError.ts';
import type { Asked } from './asked.ts';
import type { ClubRecord } from './clubRecord.ts';
import { assertNotLastOfficer } from './roles.ts';
import { changeKeepers } from './rooms.ts';

export interface NewClub {
	readonly id?: string;
	readonly name: string;
	/** IANA time zone. */
	readonly timeZone: string;
	readonly region: string;
}

/** Opens a club's record. */
export async function openClub(
	transaction: Tx,
	record: ClubRecord,
	club: NewClub,
	asked: Asked
): Promise<string> {
	const { name, timeZone, region, id = newId() } = club;
	await transaction.insertInto('club').values({ id, name, timeZone, region, openedAt: asked.at }).execute();
	const body = { club: id, name, timeZone, region, askedBy: asked.by };
	await record.say(transaction, id, 'club/opened', [id], body, asked.at);
	return id;
}

export interface NewMember {
	readonly id?: MemberId;
	readonly account: string;
	readonly name: string;
}

/** A person joins, or comes back under the same member id. @throws AppError `already-member` */
export async function joinClub(
	transaction: Tx,
	record: ClubRecord,
	club: string,
	member: NewMember,
	asked: Asked
): Promise<MemberId> {
	const before = await transaction
		.selectFrom('member')
		.select(['id', 'leftAt'])
		.where('club', '=', club)
		.where('account', '=', member.account)
		.executeTakeFirst();
	if (before && before.leftAt === null) throw new AppError('already-member', before.id);
	const id = before?.id ?? member.id ?? newId();
	const { account, name } = member;
	if (before) {
		await transaction.updateTable('member').set({ name, leftAt: null }).where('id', '=', id).execute();
	} else {
		const row = { id, club, account, name, joinedAt: asked.at, leftAt: null };
		await transaction.insertInto('member').values(row).execute();
	}
	const body = { member: id, name, askedBy: asked.by };
	await record.say(transaction, club, 'club/memberJoined', [id], body, asked.at);
	return id;
}

/** Shown under another name or handle from now on. */
export async function renameMember(
	transaction: Tx,
	record: ClubRecord,
	club: string,
	member: MemberId,
	name: string,
	asked: Asked
): Promise<void> {
	await memberOf(transaction, club, member);
	await transaction.updateTable('member').set({ name }).where('id', '=', member).execute();
	const body = { member, name, askedBy: asked.by };
	await record.say(transaction, club, 'club/memberRenamed', [member], body, asked.at);
}

/**
 * A member leaves: rooms and roles end, the history stays under "former member n". Contact details go when the person
 * is in no other club.
 */
export async function leaveClub(
	transaction: Tx,
	record: ClubRecord,
	club: string,
	member: MemberId,
	asked: Asked
): Promise<void> {
	const { account } = await memberOf(transaction, club, member);
	await assertNotLastOfficer(transaction, club, member);
	const rooms = await transaction.selectFrom('keeper').select('room').where('member', '=', member).execute();
	for (const { room } of rooms) {
		await changeKeepers(transaction, record, club, room, { add: [], remove: [member] }, asked);
	}
	await transaction.deleteFrom('role').where('member', '=', member).execute();
	const { left } = await transaction
		.selectFrom('member')
		.select((all) => all.fn.countAll().as('left'))
		.where('club', '=', club)
		.where('leftAt', 'is not', null)
		.executeTakeFirstOrThrow();
	const name = `former member ${Number(left) + 1}`;
	await transaction.updateTable('member').set({ name, leftAt: asked.at }).where('id', '=', member).execute();
	const others = await transaction
		.selectFrom('member')
		.select('id')
		.where('account', '=', account)
		.where('leftAt', 'is', null)
		.execute();
	if (others.length === 0) {
		const nothing = { email: '', phone: '', street: '', guardian: '' };
		await transaction.updateTable('account').set(nothing).where('id', '=', account).execute();
	}
	const body = { member, name, askedBy: asked.by };
	await record.say(transaction, club, 'club/memberLeft', [member], body, asked.at);
}

/** The row of somebody who is in the club now. @throws AppError `not-found` */
export async function memberOf(db: Db, club: string, member: MemberId) {
	const row = await db
		.selectFrom('member')
		.selectAll()
		.where('id', '=', member)
		.where('club', '=', club)
		.where('leftAt', 'is', null)
		.executeTakeFirst();
	if (!row) throw new AppError('not-found', member);
	return row;
}
