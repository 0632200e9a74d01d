import type { Holding } from '#club/lines/holdings.ts';
import type { ClubState, Line, Want } from '#records/state.ts';

export interface Waiting {
	readonly want: Want;
	/** Fish for this room would make one more house that has the line. */
	readonly raisesHolders: boolean;
}

/**
 * Waiting list: which rooms ask for a line, in which order?
 *
 * Rooms that raise the number of holders come first, then who has waited longest.
 */
export function waitingList(state: ClubState, line: Line, held: readonly Holding[]): Waiting[] {
	const houses = new Set(held.filter(({ word }) => word === 'holds it').map(({ house }) => house));
	const first = new Map<string, Want>();
	for (const room of state.rooms.values())
		for (const want of room.wants) {
			if (want.line !== line.id || want.ended) continue;
			const before = first.get(room.id);
			if (!before || isBefore(want, before)) first.set(room.id, want);
		}
	return [...first.values()]
		.map((want) => {
			const house = state.rooms.get(want.room)?.house;
			return { want, raisesHolders: !houses.has(house ? `house:${house}` : want.room) };
		})
		.sort((a, b) => Number(b.raisesHolders) - Number(a.raisesHolders) || (isBefore(a.want, b.want) ? -1 : 1));
}

function isBefore(a: Want, b: Want): boolean {
	return a.when.first !== b.when.first ? a.when.first < b.when.first : a.entry < b.entry;
}
