import type { ThingId } from '#records/entry.ts';
import { namesOf } from '#records/names.ts';
import type { ClubState } from '#records/state.ts';
import { isStanding } from '../lines/holdings.ts';
import type { Asking } from '../question.ts';

export interface RoomRow {
	readonly id: ThingId;
	readonly name: string;
	readonly region: string;
	readonly keepers: readonly string[];
	readonly lines: number;
	readonly groups: number;
	readonly closed: boolean;
	readonly mine: boolean;
}

/** Rooms list: which rooms does the club have? One's own first, then by name. */
export function roomsList(state: ClubState, _args: Record<string, never>, asking: Asking): RoomRow[] {
	const names = namesOf(state, null);
	const mine = state.members.get(asking.me)?.rooms ?? [];
	const standing = [...new Set(state.groups.values())].filter(isStanding);
	return [...state.rooms.values()]
		.filter((room) => room.known)
		.map((room) => {
			const groups = standing.filter((group) => group.room === room.id);
			return {
				id: room.id,
				name: names.room(room.id),
				region: room.region,
				keepers: room.keepers.map((id) => names.member(id)),
				lines: new Set(groups.map((group) => group.line)).size,
				groups: groups.length,
				closed: room.closed !== null,
				mine: mine.includes(room.id)
			};
		})
		.sort((a, b) => Number(b.mine) - Number(a.mine) || a.name.localeCompare(b.name));
}
