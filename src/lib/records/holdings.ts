/**
 * Which rooms hold, held, give or receive a thing, and from which rank on (SPEC R23); in the same way, which line and
 * which meeting a thing belongs to. Lines themselves are not placed: a line's keepers speak for their own fish only.
 */
import type { EntryId, ThingId } from './entry.ts';
import type { Item } from './item.ts';

export type Placings = (item: Item) => readonly (readonly [thing: ThingId, at: ThingId])[];

interface Placing {
	readonly at: ThingId;
	readonly entry: EntryId;
	readonly rank: string;
}

export class Holdings {
	readonly #placings: Placings;
	/** Thing -> its placings; a thing has few, so a list is smaller and faster than maps of maps. */
	readonly #placed = new Map<ThingId, Placing[]>();

	constructor(placings: Placings) {
		this.#placings = placings;
	}

	/** Puts an item's placings in or takes them out; returns the things whose first rank for a room changed. */
	set(item: Item, counts: boolean): readonly ThingId[] {
		const placings = this.#placings(item);
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
