import { isStanding } from '#club/lines/holdings.ts';
import { partIn } from '#club/people/partIn.ts';
import type { MemberId, ThingId } from '#records/entry.ts';
import type { ClubState, Line } from '#records/state.ts';

export interface LineToPlan {
	readonly line: Line;
	/** Coordinator, deputy or officer: may send every part of a plan; others only what their own rooms give or get. */
	readonly sendsAll: boolean;
	/** The member coordinates it or keeps a room that holds it. */
	readonly mine: boolean;
}

/** Lines that this member may plan: coordinators their own, officers all, keepers try what their rooms hold. */
export function linesToPlan(state: ClubState, me: MemberId): LineToPlan[] {
	const rooms = new Set(state.members.get(me)?.rooms ?? []);
	const held = new Set<ThingId>();
	for (const group of state.groups.values())
		if (group.line && group.room && rooms.has(group.room) && isStanding(group)) held.add(group.line);
	return [...state.lines.values()]
		.filter(({ known, stateSaid }) => known && (!stateSaid || stateSaid.state === 'kept'))
		.map((line) => {
			const { officer, coordinates } = partIn(state, me, null, line.id);
			return { line, sendsAll: officer || coordinates, mine: coordinates || held.has(line.id) };
		})
		.filter(({ sendsAll, mine }) => sendsAll || mine)
		.sort((a, b) => (a.line.id < b.line.id ? -1 : 1));
}
