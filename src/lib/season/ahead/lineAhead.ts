import { holdings } from '#club/lines/holdings.ts';
import type { Question } from '#club/question.ts';
import { drawTwo } from '#genetics/groups/table.ts';
import { lineKinships } from '#pedigree/lineKinships.ts';
import { livingGroups } from '#pedigree/livingGroups.ts';
import { openRooms, type OpenRooms } from '#pedigree/figures/openRooms.ts';
import { roomsAhead, type RoomsAhead } from '#pedigree/figures/roomsAhead.ts';
import type { LineToCome, RoomToCome } from '#planning/ahead/strategyAhead.ts';
import { ring } from '#planning/ring.ts';
import type { ThingId } from '#records/entry.ts';
import { namesOf } from '#records/names.ts';
import type { ClubState, Group } from '#records/state.ts';
import { roomStops } from '../roomStops.ts';
import { tripWord, type TripWord } from '../tripCosts.ts';
import { generationMonths } from './generationMonths.ts';
import { lineLoss, type LineLoss } from './lineLoss.ts';
import { lossRecord } from './lossRecord.ts';

export interface RingRoom {
	readonly room: ThingId;
	readonly name: string;
	/** The room it gives to, by its place in the ring; kinship of the two rooms' fish, and how far it is. */
	readonly to: number;
	readonly kinship: number;
	readonly way: TripWord;
}
export interface LineRing {
	/** In order; empty with fewer than two rooms. */
	readonly rooms: readonly RingRoom[];
	readonly isBest: boolean;
	readonly meanKinship: number;
	/** Rooms that hold the line and stay out, with a sentence why. */
	readonly out: readonly { readonly room: ThingId; readonly name: string; readonly why: string }[];
}
export interface LineAhead {
	readonly name: string;
	readonly code: string;
	/** Rooms that hold the line; 0 = nobody is known to. */
	readonly holders: number;
	/** The same rooms; those of one house share a heater or a power line. */
	readonly held: readonly { readonly room: ThingId; readonly house: string }[];
	/** What the futures are played with; null where no room can breed. */
	readonly line: LineToCome | null;
	/** What the record leaves open about these fish; null where nothing is. */
	readonly open: OpenRooms | null;
	readonly ring: LineRing;
	readonly loss: LineLoss | null;
	readonly monthsAGeneration: number;
}

/** A drive weighs as much as so much kinship: near rooms follow each other where it costs little. Own choice. */
const perTrip: { readonly [Word in TripWord]: number } = {
	...{ house: 0, meeting: 0, near: 0, drive: 0.005, far: 0.015 }
};

/** Line ahead: what is needed to look into a line's future, its ring, and the chance that it is lost. */
export const lineAhead: Question<{ readonly line: ThingId }, LineAhead | null> = (
	state,
	{ line: id },
	{ now }
) => {
	const line = state.lines.get(id);
	if (!line) return null;
	const names = namesOf(state, null);
	const kinship = lineKinships.of(state, line.id);
	const groups = livingGroups(state, kinship).map(({ group }) => group);
	const rooms = roomsAhead(kinship, groups);
	const held = holdings(state, line, now).filter(({ word }) => word !== 'no longer has it');
	const stops = ringStops(state, groups, now);
	const found = ringOf(state, rooms, stops);
	const loss = held.length ? lineLoss(lossRecord(state, now)) : null;
	const months = generationMonths[line.fishGroup];
	const houses = new Map(held.map(({ room, house }) => [room, house]));
	const toCome = (room: RoomsAhead['rooms'][number]): RoomToCome => ({
		...room,
		house: houses.get(room.room) ?? room.room,
		takesPart: !stops.has(room.room)
	});
	const inOrder = [
		...found.order,
		...[...rooms.rooms.keys()].filter((place) => !found.order.includes(place))
	].map((place) => toCome(rooms.rooms[place]!));
	const out = held
		.filter(({ room }) => !found.rooms.some((each) => each.room === room))
		.map(({ room }) => ({
			...{ room, name: names.room(room) },
			why:
				stops.get(room) ??
				(rooms.rooms.some((each) => each.room === room)
					? 'It is the only room that could take part.'
					: 'No males and females of this line are in the record for it. A count that tells the sexes apart would help.')
		}))
		.sort((a, b) => (a.name < b.name ? -1 : 1));
	const inYears = (rate: number) => 1 - (1 - rate) ** (months / 12);
	return {
		...{ name: names.line(line.id), code: line.code, holders: held.length, monthsAGeneration: months },
		held: held.map(({ room, house }) => ({ room, house })),
		line: inOrder.length
			? {
					table: rooms.table,
					rooms: inOrder,
					losses: { lost: inYears(loss?.rate.expected ?? 0), refilled: inYears(loss?.refilled ?? 0) }
				}
			: null,
		open: inOrder.length ? openRooms(kinship, rooms) : null,
		ring: {
			rooms: found.rooms.map((each) => ({ ...each, name: names.room(each.room) })),
			isBest: found.isBest,
			meanKinship: found.rooms.length
				? found.rooms.reduce((sum, each) => sum + each.kinship, 0) / found.rooms.length
				: 0,
			out
		},
		loss
	};
};

/** Rooms that must not give or get, each with a sentence why. */
function ringStops(state: ClubState, groups: readonly Group[], now: number): Map<ThingId, string> {
	const stops = roomStops(state, now);
	const inRoom = Map.groupBy(groups, (group) => group.room ?? '');
	for (const [room, here] of inRoom) {
		if (room === '' || stops.has(room)) continue;
		if (here.some((group) => group.mixes.length > 0))
			stops.set(room, 'Something may have got mixed there. It waits until that is settled.');
		else if (here.every((group) => group.closed)) stops.set(room, 'All its tanks of this line are closed.');
		else if (here.every((group) => group.closed ?? (group.quarantine && group.quarantine.untilMs > now)))
			stops.set(room, 'All its fish of this line are in quarantine or closed.');
	}
	return stops;
}

function ringOf(state: ClubState, { table, rooms }: RoomsAhead, stops: ReadonlyMap<ThingId, string>) {
	const places = [...rooms.keys()].filter((place) => !stops.has(rooms[place]!.room));
	if (places.length < 2) return { rooms: [], order: [], isBest: true };
	// Males travel: kinship of the giver's males with the females they meet.
	const kinship = (from: number, to: number) =>
		drawTwo(
			table,
			table.index.get(rooms[places[from]!]!.males[0]!)!,
			table.index.get(rooms[places[to]!]!.females[0]!)!
		);
	const room = (place: number) => rooms[places[place]!]!.room;
	const way = (from: number, to: number): TripWord => {
		const [a, b] = [state.rooms.get(room(from)), state.rooms.get(room(to))];
		return a && b ? tripWord(a, b, () => false, state.club.far) : 'drive';
	};
	const { order, isBest } = ring(
		places.length,
		(from, to) => kinship(from, to) + (from === to ? 0 : perTrip[way(from, to)])
	);
	return {
		order: order.map((place) => places[place]!),
		isBest,
		rooms: order.map((place, i) => {
			const to = (i + 1) % order.length;
			const next = order[to]!;
			return { room: room(place), to, kinship: kinship(place, next), way: way(place, next) };
		})
	};
}
