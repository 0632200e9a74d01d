/** Officers, coordinators and deputies of lines, runners of meetings. */
import type { MemberId, ThingId } from '#records/entry.ts';
import type { RoleName } from '#records/state.ts';
import { AppError } from '../appError.ts';
import type { Tx } from './tables.ts';
import type { ClubRecord } from './clubRecord.ts';
import type { Asked } from './asked.ts';

/** A role of a member. `of`: the line or meeting; null for officers. */
export interface RoleOf {
	readonly member: MemberId;
	readonly role: RoleName;
	readonly of: ThingId | null;
}

async function assertMember(transaction: Tx, club: string, member: MemberId): Promise<void> {
	const row = await transaction
		.selectFrom('member')
		.select('id')
		.where('id', '=', member)
		.where('club', '=', club)
		.where('leftAt', 'is', null)
		.executeTakeFirst();
	if (!row) throw new AppError('not-found', member);
}

/** Gives a role; giving it twice changes nothing. */
export async function giveRole(
	transaction: Tx,
	record: ClubRecord,
	club: string,
	given: RoleOf,
	asked: Asked
): Promise<void> {
	const { member, role, of } = given;
	// An officer is one of the club, everybody else of one line or meeting.
	if ((role === 'officer') !== (of === null)) throw new AppError('not-understood', role);
	await assertMember(transaction, club, member);
	const { numInsertedOrUpdatedRows } = await transaction
		.insertInto('role')
		.values({ member, role, of: of ?? '', since: asked.at })
		.onConflict((conflict) => conflict.columns(['member', 'role', 'of']).doNothing())
		.executeTakeFirstOrThrow();
	if (numInsertedOrUpdatedRows === 0n) return;
	const body = { member, role, of, askedBy: asked.by };
	await record.say(transaction, club, 'club/roleGiven', of ? [member, of] : [member], body, asked.at);
}

/** Ends a role. @throws AppError `last-officer` */
export async function endRole(
	transaction: Tx,
	record: ClubRecord,
	club: string,
	ended: RoleOf,
	asked: Asked
): Promise<void> {
	const { member, role, of } = ended;
	await assertMember(transaction, club, member);
	if (role === 'officer') await assertNotLastOfficer(transaction, club, member);
	const { numDeletedRows } = await transaction
		.deleteFrom('role')
		.where('member', '=', member)
		.where('role', '=', role)
		.where('of', '=', of ?? '')
		.executeTakeFirst();
	if (numDeletedRows === 0n) return;
	const body = { member, role, of, askedBy: asked.by };
	await record.say(transaction, club, 'club/roleEnded', of ? [member, of] : [member], body, asked.at);
}

/** @throws AppError `last-officer` when nobody else could let people in */
export async function assertNotLastOfficer(transaction: Tx, club: string, member: MemberId): Promise<void> {
	const officers = await transaction
		.selectFrom('role')
		.innerJoin('member', 'member.id', 'role.member')
		.select('role.member')
		.where('member.club', '=', club)
		.where('role.role', '=', 'officer')
		.execute();
	if (officers.length === 1 && officers[0]?.member === member) throw new AppError('last-officer', member);
}
