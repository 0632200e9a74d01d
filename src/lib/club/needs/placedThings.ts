import type { ThingId } from '#records/entry.ts';
import type { ThingRef } from '#records/kind.ts';
import type { ClubState, Thing } from '#records/state.ts';
import { allBags } from '../bags/bagRow.ts';
import { bagReceiver } from '../bags/bagReceiver.ts';

export interface PlacedThing {
	readonly ref: ThingRef;
	readonly thing: Thing;
	/** Rooms that it concerns. */
	readonly rooms: readonly ThingId[];
	readonly line: ThingId | null;
}

/** Placed things: everything that entries are about, each once, with the rooms and the line that it concerns. */
export function placedThings(state: ClubState): PlacedThing[] {
	const rooms = (...ids: readonly (ThingId | null | undefined)[]) =>
		ids.filter((id): id is ThingId => typeof id === 'string');
	const of = (
		type: ThingRef['type'],
		thing: Thing,
		places: readonly ThingId[],
		line: ThingId | null
	): PlacedThing => ({ ref: { type, id: thing.id }, thing, rooms: places, line });
	return [
		...[...state.rooms.values()].map((room) => of('room', room, [room.id], null)),
		...[...state.lines.values()].map((line) => of('line', line, [], line.id)),
		...[...state.groups.values()].map((group) => of('group', group, rooms(group.room), group.line)),
		...[...state.spawns.values()].map((spawn) => of('spawn', spawn, rooms(spawn.room), spawn.line)),
		...allBags(state).map((bag) => of('bag', bag, rooms(bag.fromRoom, bagReceiver(bag)), bag.line)),
		...[...state.exchanges.values()].map((one) =>
			of('exchange', one, rooms(one.toRoom, ...one.gives.map((give) => give.fromRoom)), one.line)
		),
		...[...state.meetings.values()].map((meeting) => of('meeting', meeting, [], null))
	];
}
