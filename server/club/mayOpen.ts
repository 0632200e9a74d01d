/**
 * Who may open which document: decided here and nowhere else.
 *
 * | audience              | who                                                                          |
 * | --------------------- | ---------------------------------------------------------------------------- |
 * | `club`                | every member                                                                 |
 * | `officers`            | officers, coordinators and deputies                                          |
 * | `room:<room>:<epoch>` | members who kept the room when that epoch began, or were let in by them since |
 *
 * Nobody who left the club opens anything; runners of a meeting have no more than members.
 */
import type { Audience, MemberId } from '#records/entry.ts';
import type { Db } from './tables.ts';

/** Roles that read what officers and coordinators write for each other. */
const officersAudience = ['officer', 'coordinator', 'deputy'] as const;

/** What the rule looks at. */
export interface Standing {
	/** A member of the club who has not left. */
	readonly isMember: boolean;
	readonly roles: readonly string[];
	/** Room epochs that the member may read, as `<room>:<epoch>`. */
	readonly roomEpochs: readonly string[];
}

/** The rule itself, over plain data. Anything but the three shapes is closed. */
export function opens(standing: Standing, audience: string): boolean {
	if (!standing.isMember) return false;
	if (audience === 'club') return true;
	if (audience === 'officers')
		return standing.roles.some((role) => officersAudience.some((one) => one === role));
	if (audience.startsWith('room:')) return standing.roomEpochs.includes(audience.slice('room:'.length));
	return false;
}

export async function standingOf(db: Db, member: MemberId, club: string): Promise<Standing> {
	const row = await db
		.selectFrom('member')
		.select('id')
		.where('id', '=', member)
		.where('club', '=', club)
		.where('leftAt', 'is', null)
		.executeTakeFirst();
	if (!row) return { isMember: false, roles: [], roomEpochs: [] };
	const roles = await db.selectFrom('role').select('role').where('member', '=', member).execute();
	const readers = await db
		.selectFrom('roomReader')
		.innerJoin('room', 'room.id', 'roomReader.room')
		.select(['roomReader.room', 'roomReader.epoch'])
		.where('roomReader.member', '=', member)
		.where('room.club', '=', club)
		.execute();
	return {
		isMember: true,
		roles: roles.map(({ role }) => role),
		roomEpochs: readers.map(({ room, epoch }) => `${room}:${epoch}`)
	};
}

/** May this member of this club open the document of this audience now? Asked of the tables each time. */
export async function mayOpen(
	db: Db,
	member: MemberId,
	club: string,
	audience: Audience | string
): Promise<boolean> {
	return opens(await standingOf(db, member, club), audience);
}
