/**
 * Who has a part in a thing, and who may decide: the two tables of rights (SPEC R21 to R29), each in one place.
 */
import type { Authority, Moment } from './authority.ts';
import type { MemberId, ThingId } from './entry.ts';
import type { Holdings } from './holdings.ts';
import type { Item } from './item.ts';
import type { ThingRef } from './kind.ts';

export interface Ground {
	readonly authority: Authority;
	readonly holdings: Holdings;
	readonly lines: Holdings;
	readonly meetings: Holdings;
}

/** The moment at which a writer's rights are looked up. */
export function momentOf(item: Item): Moment {
	return { n: null, time: item.when?.last ?? 0 };
}

/**
 * The things that decide who has a part: all of an entry's; but when it places a group or spawn that a room already
 * holds, only that one. Nobody takes over another's fish by naming them in an entry of their own (SPEC R24).
 */
function thingsAsked(item: Item, ground: Ground): readonly ThingRef[] {
	const places = item.kind?.places?.(item.body);
	if (!places) return item.things;
	const taken = item.things.filter(
		(thing) =>
			(thing.type === 'group' || thing.type === 'spawn') &&
			places.some(([placed]) => placed === thing.id) &&
			ground.holdings.before(thing.id, item.rank).length > 0
	);
	return taken.length > 0 ? taken : item.things;
}

/** Rooms concerned by an entry at a rank: those that hold its things, those it gives to or receives in (SPEC R23). */
export function roomsConcerned(
	item: Item,
	ground: Ground,
	things = thingsAsked(item, ground)
): readonly ThingId[] {
	const rooms: ThingId[] = [];
	let alreadyHeld = false;
	for (const thing of things) {
		if (thing.type === 'room') rooms.push(thing.id);
		else if (thing.type !== 'line') {
			const holders = ground.holdings.before(thing.id, item.rank);
			if (holders.length && (thing.type === 'group' || thing.type === 'spawn')) alreadyHeld = true;
			rooms.push(...holders);
		}
	}
	for (const [thing, room] of item.kind?.places?.(item.body) ?? []) {
		const type = things.find((ref) => ref.id === thing)?.type;
		// A bag or exchange is placed with whoever gives or receives; a group only by the first who tells of it.
		if (type === 'bag' || type === 'exchange') rooms.push(room);
		else if (type && type !== 'line' && ground.holdings.before(thing, item.rank).length === 0)
			rooms.push(room);
	}
	// A room that is merely named counts only while nobody holds the thing.
	return alreadyHeld || rooms.length > 0 ? rooms : (item.kind?.rooms?.(item.body) ?? rooms);
}

/** The lines concerned: those its things are known to be of; only while none is known, the line that it names. */
export function linesConcerned(item: Item, ground: Ground, things = thingsAsked(item, ground)): ThingId[] {
	const lines = new Set<ThingId>();
	for (const thing of things) {
		if (thing.type === 'line') lines.add(thing.id);
		else for (const line of ground.lines.before(thing.id, item.rank)) lines.add(line);
	}
	const named = item.kind?.line?.(item.body);
	return lines.size === 0 && named ? [named] : [...lines];
}

/** Whether a member has a part in what an entry tells, as if writing it where it stands (SPEC R21). */
export function hasPart(
	member: MemberId,
	item: Item,
	ground: Ground,
	things: readonly ThingRef[] | null = null
): boolean {
	const { authority } = ground;
	const at = momentOf(item);
	if (authority.hasRole(member, 'officer', null, at)) return true;
	// An entry that this app does not understand names no rooms that it could read.
	if (item.problem !== '') return false;
	const asked = things ?? thingsAsked(item, ground);
	if (roomsConcerned(item, ground, asked).some((room) => authority.keeps(member, room, at))) return true;
	if (linesConcerned(item, ground, asked).some((line) => speaksForLine(authority, member, line, at)))
		return true;
	return meetingsConcerned(item, ground, asked).some((meeting) =>
		authority.hasRole(member, 'runner', meeting, at)
	);
}

function meetingsConcerned(item: Item, ground: Ground, things: readonly ThingRef[]): ThingId[] {
	const named = item.kind?.meeting?.(item.body);
	const known = things.flatMap((thing) => ground.meetings.before(thing.id, item.rank));
	return known.length === 0 && named ? [named] : known;
}

export function speaksForLine(authority: Authority, member: MemberId, line: ThingId, at: Moment): boolean {
	return authority.hasRole(member, 'coordinator', line, at) || authority.hasRole(member, 'deputy', line, at);
}

/**
 * Whether a decision is its writer's to take (SPEC R25, R26): asked at the decision's row number.
 *
 * @param disputed the entry that a decision on a dispute is about
 */
export function mayDecide(item: Item, ground: Ground, disputed: Item | null): boolean {
	const { authority } = ground;
	const by = item.entry.by;
	const at: Moment = { n: item.stamp?.n ?? 0, time: 0 };
	const officer = authority.hasRole(by, 'officer', null, at);
	const forLine = () => linesConcerned(item, ground).some((line) => speaksForLine(authority, by, line, at));
	const forRoom = (rooms: readonly ThingId[]) => rooms.some((room) => authority.keeps(by, room, at));
	const forAnother = item.entry.toldBy !== undefined;
	switch (item.kind?.decides) {
		case 'officer':
			return officer;
		case 'line':
			return officer || forLine();
		case 'dispute': {
			const lines = disputed ? linesConcerned(disputed, ground) : [];
			return officer || lines.some((line) => speaksForLine(authority, by, line, at));
		}
		case 'room':
			return forRoom(roomsConcerned(item, ground)) || (officer && forAnother);
		case 'proposer':
			return officer || forLine() || forRoom(roomsConcerned(item, ground));
		case 'side': {
			const named = item.kind.rooms?.(item.body) ?? [];
			const sides = new Set(item.things.flatMap((thing) => ground.holdings.before(thing.id, item.rank)));
			if (!named.every((room) => sides.has(room))) return false;
			return forRoom(named) || (forAnother && (officer || forLine()));
		}
		default:
			return false;
	}
}
