import { dayMs } from '#club/question.ts';
import { dayText } from '#records/dayText.ts';
import type { ThingId } from '#records/entry.ts';
import { namesOf } from '#records/names.ts';
import type { Bag, ClubState } from '#records/state.ts';

/** Six weeks after a bag to or from a closed room or tank: common practice, no source. */
const contactDays = 42;

/**
 * Room stops: from and to which rooms may nothing go, and why?
 *
 * Closed rooms; and rooms that gave a bag to a closed room or tank, or got one from it, less than six weeks before.
 *
 * @param when the day of the bags, ms since 1970
 * @returns a sentence for each room that is stopped
 */
export function roomStops(state: ClubState, when: number): Map<ThingId, string> {
	const names = namesOf(state, null);
	const stops = new Map<ThingId, string>();
	for (const room of state.rooms.values())
		if (room.closed) stops.set(room.id, `${names.room(room.id)} is closed: nothing in or out.`);
	const contacts = [...new Set(state.bags.values())]
		.flatMap((bag) => contactsBy(state, bag))
		.filter(({ at }) => when - at < contactDays * dayMs)
		.sort((a, b) => b.at - a.at || (a.other < b.other ? -1 : 1));
	for (const { room, other, at } of contacts) {
		if (stops.has(room)) continue;
		const bag = dayText(new Date(at).toISOString().slice(0, 10));
		const free = dayText(new Date(at + contactDays * dayMs).toISOString().slice(0, 10));
		stops.set(
			room,
			`${names.room(room)} shared a bag with ${names.room(other)} on ${bag}, where a tank is closed: nothing in or out before ${free}.`
		);
	}
	return stops;
}

function contactsBy(state: ClubState, bag: Bag): { room: ThingId; other: ThingId; at: number }[] {
	if (bag.givenBack || !bag.fromRoom) return [];
	const from = bag.fromRoom;
	const isShut = (group: ThingId | null) => !!group && !!state.groups.get(group)?.closed;
	const giver = !!state.rooms.get(from)?.closed || bag.contents.some(({ group }) => isShut(group));
	return bag.arrivals.flatMap((arrival) => {
		const at = arrival.when.last;
		const taker = !!state.rooms.get(arrival.room)?.closed || isShut(arrival.group);
		return [
			...(giver ? [{ room: arrival.room, other: from, at }] : []),
			...(taker ? [{ room: from, other: arrival.room, at }] : [])
		];
	});
}
