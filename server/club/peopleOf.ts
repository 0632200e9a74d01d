/** The people and rooms of a club as its members may see them: no contact details, nobody who left. */
import type { RoleName } from '#records/state.ts';
import type { Db } from './tables.ts';

export interface PersonHere {
	readonly id: string;
	readonly name: string;
	readonly joinedAt: number;
	readonly roles: readonly { readonly role: RoleName; readonly of: string }[];
	/** Ids of the rooms kept now. */
	readonly rooms: readonly string[];
}

export interface RoomHere {
	readonly id: string;
	readonly name: string;
	readonly region: string;
	readonly house: string;
	readonly keepers: readonly string[];
}

export async function peopleOf(db: Db, club: string): Promise<{ members: PersonHere[]; rooms: RoomHere[] }> {
	const members = await db
		.selectFrom('member')
		.select(['id', 'name', 'joinedAt'])
		.where('club', '=', club)
		.where('leftAt', 'is', null)
		.execute();
	const roles = await db
		.selectFrom('role')
		.innerJoin('member', 'member.id', 'role.member')
		.select(['role.member', 'role.role', 'role.of'])
		.where('member.club', '=', club)
		.execute();
	const rooms = await db
		.selectFrom('room')
		.select(['id', 'name', 'region', 'house'])
		.where('club', '=', club)
		.execute();
	const keepers = await db
		.selectFrom('keeper')
		.innerJoin('room', 'room.id', 'keeper.room')
		.select(['keeper.room', 'keeper.member'])
		.where('room.club', '=', club)
		.execute();
	const byName = (left: { name: string }, right: { name: string }) =>
		left.name.localeCompare(right.name, 'en');
	return {
		members: members.sort(byName).map((member) => ({
			...member,
			roles: roles.filter((role) => role.member === member.id).map(({ role, of }) => ({ role, of })),
			rooms: keepers.filter((keeper) => keeper.member === member.id).map(({ room }) => room)
		})),
		rooms: rooms.sort(byName).map((room) => ({
			...room,
			keepers: keepers.filter((keeper) => keeper.room === room.id).map(({ member }) => member)
		}))
	};
}
