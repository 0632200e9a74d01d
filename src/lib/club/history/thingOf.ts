import type { ThingRef } from '#records/kind.ts';
import type { ClubState, Thing } from '#records/state.ts';

/** The thing of the club state that is meant, or null for one not heard of. */
export function thingOf(state: ClubState, { type, id }: ThingRef): Thing | null {
	if (type === 'club') return state.club;
	const maps = {
		member: state.members,
		room: state.rooms,
		line: state.lines,
		group: state.groups,
		spawn: state.spawns,
		bag: state.bags,
		exchange: state.exchanges,
		meeting: state.meetings
	} as const;
	return maps[type].get(id) ?? null;
}
