/**
 * Which rooms hold, held, give or receive a thing, and from which rank on (SPEC R23); in the same way, which line and
 * which meeting a thing belongs to. Lines themselves are not placed: a line's keepers speak for their own fish only.
 */
import type { EntryId, ThingId } from './entry.ts';
import type { Item } from './item.ts';

export type Placings = readonly (readonly [thing: ThingId, at: ThingId])[];

interface Placing {
	readonly at: ThingId;
	readonly entry: EntryId;
	readonly rank: string;
}

export class Holdings {
	/** Thing -> its placings; a thing has few, so a list is smaller and faster than maps of maps. */
	readonly #placed = new Map<ThingId, Placing[]>();

	/** Puts an item's placings in or takes them out; returns the things whose first rank for a room changed. */
	set(item: Item, placings: Placings, counts: boolean): readonly ThingId[] {
		if (placings.length === 0) return nothing;
		const changed: ThingId[] = [];
		for (const [thing, at] of placings) {
			const placed = this.#placed.get(thing);
			const before = placed ? lowest(placed, at) : null;
			const entry = item.entry.id;
			const others = placed?.filter((one) => one.entry !== entry || one.at !== at) ?? [];
			if (counts) others.push({ at, entry, rank: item.rank });
			if (others.length) this.#placed.set(thing, others);
			else this.#placed.delete(thing);
			if (lowest(others, at) !== before) changed.push(thing);
		}
		return changed;
	}

	/** Rooms with a placing of lower rank. */
	before(thing: ThingId, rank: string): readonly ThingId[] {
		const placed = this.#placed.get(thing);
		if (!placed) return nothing;
		const rooms: ThingId[] = [];
		for (const one of placed) if (one.rank < rank && !rooms.includes(one.at)) rooms.push(one.at);
		return rooms;
	}
}

const nothing: readonly string[] = [];

function lowest(placed: readonly Placing[], at: ThingId): string | null {
	let first: string | null = null;
	for (const one of placed) if (one.at === at && (first === null || one.rank < first)) first = one.rank;
	return first;
}

const noPlacings: Placings = [];

/** Rooms: what an item places where. */
export function roomPlacings(item: Item): Placings {
	if (item.problem !== '' || !item.kind?.places) return noPlacings;
	return item.kind
		.places(item.body)
		.filter(([thing]) => item.things.some((ref) => ref.id === thing && ref.type !== 'line'));
}

/** Lines: a thing that an entry places belongs to the line that the entry names. */
export function linePlacings(item: Item, rooms: Placings): Placings {
	const line = rooms.length > 0 ? item.kind?.line?.(item.body) : null;
	return line ? rooms.map(([thing]) => [thing, line] as const) : noPlacings;
}

/** Meetings: a bag belongs to the meeting that it was logged at. */
export function meetingPlacings(item: Item): Placings {
	if (item.problem !== '' || !item.kind?.meeting) return noPlacings;
	const meeting = item.kind.meeting(item.body);
	if (!meeting) return noPlacings;
	return item.things.filter((thing) => thing.type === 'bag').map((thing) => [thing.id, meeting] as const);
}
