import type { ThingId } from '#records/entry.ts';
import { namesOf } from '#records/names.ts';
import type { ClubState, Room } from '#records/state.ts';
import { saidBy, saidByWords } from '../people/saidBy.ts';
import { dayMs } from '../question.ts';

/** Tanks fill up quickly: the word shows its age after six weeks, and after three months it is too old. Own choice. */
export const tanksAgeingDays = 45;
export const tanksTooOldDays = 90;

export interface TanksFree {
	/** As said, and less the bags that arrived since: each stands in a tank by itself at first. */
	readonly said: number;
	readonly left: number;
	readonly arrived: number;
	/** Who said so, and who typed it for them. */
	readonly name: string;
	/** When it was so, as written (ISO 8601-2), and its last moment. */
	readonly day: string;
	readonly at: number;
	readonly age: 'fresh' | 'ageing' | 'too old';
}

/**
 * Tanks free: how many tanks has a room for newcomers, who said so, and how old is that word?
 *
 * @returns null for a room of which nobody has said
 */
export function tanksFree(state: ClubState, now: number): (room: Room) => TanksFree | null {
	const names = namesOf(state, null);
	let arrivals: Map<ThingId, number[]> | undefined;
	return (room) => {
		const word = room.tanksFree;
		if (!word) return null;
		arrivals ??= arrivalsByRoom(state);
		const arrived = (arrivals.get(room.id) ?? []).filter((first) => first > word.when.last).length;
		const days = (now - word.when.last) / dayMs;
		return {
			...{ said: word.tanks, left: Math.max(0, word.tanks - arrived), arrived },
			...{ name: saidByWords(saidBy(word, names)), day: word.when.text, at: word.when.last },
			age: days > tanksTooOldDays ? 'too old' : days > tanksAgeingDays ? 'ageing' : 'fresh'
		};
	};
}

/** When each room's bags arrived: the first moment that it may have been. */
function arrivalsByRoom(state: ClubState): Map<ThingId, number[]> {
	const all = new Map<ThingId, number[]>();
	for (const bag of new Set(state.bags.values())) {
		// Two statements of one arrival are one bag.
		const first = new Map<ThingId, number>();
		for (const { room, when } of bag.arrivals)
			first.set(room, Math.min(first.get(room) ?? Infinity, when.first));
		for (const [room, at] of first) all.set(room, [...(all.get(room) ?? []), at]);
	}
	return all;
}
