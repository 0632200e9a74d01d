import type { MemberId, ThingId } from '#records/entry.ts';
import type { ClubState } from '#records/state.ts';

export interface Part {
	readonly officer: boolean;
	/** Coordinator or deputy of the line. */
	readonly coordinates: boolean;
	/** Keeper of the room. */
	readonly keeps: boolean;
	/** Any of these: what this member says about it counts by itself. */
	readonly any: boolean;
}

/**
 * Which part does a member have in something of this line in this room? For screens, which explain and warn by it;
 * what counts is decided by the fold alone.
 */
export function partIn(state: ClubState, me: MemberId, room: ThingId | null, line: ThingId | null): Part {
	const member = state.members.get(me);
	const officer = member?.roles.some((role) => role.role === 'officer') ?? false;
	const coordinates =
		line !== null &&
		(member?.roles.some(
			(role) => role.of === line && (role.role === 'coordinator' || role.role === 'deputy')
		) ??
			false);
	const keeps = room !== null && (state.rooms.get(room)?.keepers.includes(me) ?? false);
	return { officer, coordinates, keeps, any: officer || coordinates || keeps };
}
