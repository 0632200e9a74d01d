/**
 * Who has a part in a thing, and who may decide: the two tables of rights (SPEC R21 to R29), each in one place.
 */
import type { Authority, MemberRights, Moment } from './authority.ts';
import type { Subject } from './dossier.ts';
import type { ThingId } from './entry.ts';
import type { Item } from './item.ts';
import { isPlacedBefore, type Placing, type Placings } from './placings.ts';
import { compareRanks, type Rank } from './rank.ts';

type Things = readonly Subject<Item>[];
type Places = readonly (readonly [thing: ThingId, room: ThingId])[];

/** The moment at which a writer's rights are looked up. */
export function momentOf(item: Item): Moment {
	return { n: null, time: item.when?.last ?? 0 };
}

const nowhere: Places = [];

/** Where an entry puts its things. */
export function placesOf(item: Item): Places {
	return item.problem === '' && item.kind?.places ? item.kind.places(item.body) : nowhere;
}

/**
 * The things that decide who has a part: all of an entry's; but when it places a group or spawn that a room already
 * holds, only that one. Nobody takes over another's fish by naming them in an entry of their own (SPEC R24).
 */
function thingsAsked(item: Item, places: Places): Things {
	if (places.length === 0) return item.things;
	const taken = item.things.filter(
		(thing) =>
			(thing.type === 'group' || thing.type === 'spawn') &&
			places.some(([placed]) => placed === thing.id) &&
			isPlacedBefore(thing.dossier.rooms, item.rank)
	);
	return taken.length > 0 ? taken : item.things;
}

/** A member's rights at one moment: whoever asks for a part speaks for rooms, lines and meetings. */
class Speaker {
	readonly #authority: Authority;
	readonly #rights: MemberRights;
	readonly #at: Moment;

	constructor(authority: Authority, rights: MemberRights, at: Moment) {
		this.#authority = authority;
		this.#rights = rights;
		this.#at = at;
	}

	isOfficer(): boolean {
		return this.#authority.hasRole(this.#rights, 'officer', null, this.#at);
	}
	keeps(room: ThingId): boolean {
		return this.#authority.keeps(this.#rights, room, this.#at);
	}
	speaksFor(line: ThingId): boolean {
		return (
			this.#authority.hasRole(this.#rights, 'coordinator', line, this.#at) ||
			this.#authority.hasRole(this.#rights, 'deputy', line, this.#at)
		);
	}
	runs(meeting: ThingId): boolean {
		return this.#authority.hasRole(this.#rights, 'runner', meeting, this.#at);
	}

	keepsOne(placings: Placings, rank: Rank): boolean {
		for (const one of placings) if (compareRanks(one.rank, rank) < 0 && this.keeps(one.at)) return true;
		return false;
	}
	speaksForOne(placings: Placings, rank: Rank): boolean {
		for (const one of placings) if (compareRanks(one.rank, rank) < 0 && this.speaksFor(one.at)) return true;
		return false;
	}
	runsOne(placings: Placings, rank: Rank): boolean {
		for (const one of placings) if (compareRanks(one.rank, rank) < 0 && this.runs(one.at)) return true;
		return false;
	}
}

/**
 * Whether the speaker keeps one of the rooms concerned by an entry at its rank: those that hold its things, those it
 * gives to or receives in (SPEC R23).
 */
function keepsRoomOf(item: Item, things: Things, places: Places, speaker: Speaker): boolean {
	let isAny = false;
	for (const { type, id, dossier } of things) {
		if (type === 'line') continue;
		if (type === 'room' ? speaker.keeps(id) : speaker.keepsOne(dossier.rooms, item.rank)) return true;
		if (type === 'room' || isPlacedBefore(dossier.rooms, item.rank)) isAny = true;
	}
	for (const place of places) {
		const placed = things.find((ref) => ref.id === place[0]);
		if (!placed || placed.type === 'line') continue;
		// A bag or exchange is placed with whoever gives or receives; a group only by the first who tells of it.
		const isEitherSide = placed.type === 'bag' || placed.type === 'exchange';
		if (!isEitherSide && isPlacedBefore(placed.dossier.rooms, item.rank)) continue;
		if (speaker.keeps(place[1])) return true;
		isAny = true;
	}
	// A room that is merely named counts only while nobody holds the thing.
	return !isAny && !!item.kind?.rooms?.(item.body).some((room) => speaker.keeps(room));
}

/** The same for the lines: those its things are known to be of; only while none is known, the line that it names. */
function speaksForLineOf(item: Item, things: Things, speaker: Speaker): boolean {
	let isAny = false;
	for (const { type, id, dossier } of things) {
		if (type === 'line' ? speaker.speaksFor(id) : speaker.speaksForOne(dossier.lines, item.rank)) return true;
		if (type === 'line' || isPlacedBefore(dossier.lines, item.rank)) isAny = true;
	}
	const named = isAny || item.problem !== '' ? null : item.kind?.line?.(item.body);
	return !!named && speaker.speaksFor(named);
}

function runsMeetingOf(item: Item, things: Things, speaker: Speaker): boolean {
	if (things.some(({ dossier }) => speaker.runsOne(dossier.meetings, item.rank))) return true;
	if (things.some(({ dossier }) => isPlacedBefore(dossier.meetings, item.rank))) return false;
	const named = item.kind?.meeting?.(item.body);
	return !!named && speaker.runs(named);
}

/**
 * Whether a member has a part in what an entry tells, as if writing it where it stands (SPEC R21).
 *
 * @param asked the things in which a part is asked for; null = as the entry itself has it
 */
export function hasPart(
	rights: MemberRights,
	item: Item,
	authority: Authority,
	asked: Things | null = null
): boolean {
	const speaker = new Speaker(authority, rights, momentOf(item));
	if (speaker.isOfficer()) return true;
	// An entry that this app does not understand names no rooms that it could read.
	if (item.problem !== '') return false;
	const places = placesOf(item);
	const things = asked ?? thingsAsked(item, places);
	return (
		keepsRoomOf(item, things, places, speaker) ||
		speaksForLineOf(item, things, speaker) ||
		runsMeetingOf(item, things, speaker)
	);
}

/**
 * Whether a decision is its writer's to take (SPEC R25, R26): asked at the decision's row number.
 *
 * @param disputed the entry that a decision on a dispute is about
 */
export function mayDecide(item: Item, authority: Authority, disputed: Item | null): boolean {
	const speaker = new Speaker(authority, item.rights, { n: item.stamp?.n ?? 0, time: 0 });
	const officer = speaker.isOfficer();
	const places = placesOf(item);
	const things = thingsAsked(item, places);
	const forAnother = item.entry.toldBy !== undefined;
	switch (item.kind?.decides) {
		case 'officer':
			return officer;
		case 'line':
			return officer || speaksForLineOf(item, things, speaker);
		case 'dispute':
			return officer || (disputed !== null && speaksForItsLine(disputed, speaker));
		case 'room':
			return keepsRoomOf(item, things, places, speaker) || (officer && forAnother);
		case 'proposer':
			return officer || speaksForLineOf(item, things, speaker) || keepsRoomOf(item, things, places, speaker);
		case 'side': {
			const named = item.kind.rooms?.(item.body) ?? [];
			if (!named.every((room) => isSide(item, room))) return false;
			if (named.some((room) => speaker.keeps(room))) return true;
			return forAnother && (officer || speaksForLineOf(item, things, speaker));
		}
		default:
			return false;
	}
}

function isSide(item: Item, room: ThingId): boolean {
	const isHere = ({ at, rank }: Placing) => at === room && compareRanks(rank, item.rank) < 0;
	return item.things.some(({ dossier }) => dossier.rooms.some(isHere));
}

function speaksForItsLine(item: Item, speaker: Speaker): boolean {
	return speaksForLineOf(item, thingsAsked(item, placesOf(item)), speaker);
}
