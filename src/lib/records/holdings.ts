/**
 * Which rooms hold, held, give or receive a thing, and from which rank on (SPEC R23); in the same way, which line and
 * which meeting a thing belongs to. Lines themselves are not placed: a line's keepers speak for their own fish only.
 */
import type { EntryId, ThingId } from './entry.ts';
import type { Item } from './item.ts';

export type Placings = (item: Item) => readonly (readonly [thing: ThingId, at: ThingId])[];

export class Holdings {
	readonly #placings: Placings;
	readonly #ranks = new Map<ThingId, Map<ThingId, Map<EntryId, string>>>();

	constructor(placings: Placings) {
		this.#placings = placings;
	}

	/** Puts an item's placings in or takes them out; returns the things whose first rank for a room changed. */
	set(item: Item, counts: boolean): ThingId[] {
		const changed: ThingId[] = [];
		for (const [thing, room] of this.#placings(item)) {
			const rooms = this.#ranks.get(thing) ?? new Map<ThingId, Map<EntryId, string>>();
			const ranks = rooms.get(room) ?? new Map<EntryId, string>();
			const before = lowest(ranks);
			if (counts) ranks.set(item.entry.id, item.rank);
			else ranks.delete(item.entry.id);
			if (lowest(ranks) === before) continue;
			if (ranks.size) rooms.set(room, ranks);
			else rooms.delete(room);
			this.#ranks.set(thing, rooms);
			changed.push(thing);
		}
		return changed;
	}

	/** Rooms with a placing of lower rank. */
	before(thing: ThingId, rank: string): ThingId[] {
		const rooms: ThingId[] = [];
		for (const [room, ranks] of this.#ranks.get(thing) ?? []) {
			const first = lowest(ranks);
			if (first !== null && first < rank) rooms.push(room);
		}
		return rooms;
	}
}

function lowest(ranks: ReadonlyMap<EntryId, string>): string | null {
	let first: string | null = null;
	for (const rank of ranks.values()) if (first === null || rank < first) first = rank;
	return first;
}

/** Rooms: what an item places where. */
export function roomPlacings(item: Item): readonly (readonly [ThingId, ThingId])[] {
	const places = item.problem === '' ? item.kind?.places?.(item.body) : undefined;
	return places
		? places.filter(([thing]) => item.things.some((ref) => ref.id === thing && ref.type !== 'line'))
		: [];
}

/** Lines: a thing that an entry places belongs to the line that the entry names. */
export function linePlacings(item: Item): readonly (readonly [ThingId, ThingId])[] {
	const line = item.problem === '' ? item.kind?.line?.(item.body) : null;
	return line ? roomPlacings(item).map(([thing]) => [thing, line] as const) : [];
}

/** Meetings: a bag belongs to the meeting that it was logged at. */
export function meetingPlacings(item: Item): readonly (readonly [ThingId, ThingId])[] {
	const meeting = item.problem === '' ? item.kind?.meeting?.(item.body) : null;
	if (!meeting) return [];
	return item.things.filter((thing) => thing.type === 'bag').map((thing) => [thing.id, meeting] as const);
}
