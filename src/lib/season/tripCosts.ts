import type { Club, Room } from '#records/state.ts';

/** Near, a drive, far: in halves of a drive. Own choice. */
const cost = { near: 1, drive: 2, far: 5 } as const;

/** How far it is, in a word: what the cost of a trip stands for. */
export type TripWord = 'meeting' | 'house' | 'near' | 'drive' | 'far';

/**
 * @param comes whether somebody of the room comes to the meeting; false where none is planned for
 * @param far pairs of regions that are far apart, as the club's officers said
 */
export function tripWord(a: Room, b: Room, comes: (room: Room) => boolean, far: Club['far']): TripWord {
	if (a.id === b.id || (a.house !== '' && a.house === b.house)) return 'house';
	if (comes(a) && comes(b)) return 'meeting';
	const isFar = ({ one, other }: Club['far'][number]) =>
		(one === a.region && other === b.region) || (one === b.region && other === a.region);
	if (a.region === '' || b.region === '') return 'drive';
	if (far.some(isFar)) return 'far';
	return a.region === b.region ? 'near' : 'drive';
}

export function tripCost(word: TripWord): number {
	return word === 'meeting' || word === 'house' ? 0 : cost[word];
}
