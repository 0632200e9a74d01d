import type { RoomAhead } from '#genetics/ahead/room.ts';
import type { GroupKinship } from '#genetics/groups/table.ts';
import type { Group } from '#records/state.ts';
import type { LineKinship } from '../lineKinship.ts';
import { breedersOf, poolsTable, type Pool } from './poolsTable.ts';
import type { Counted } from './weighing.ts';

/** The rooms as they would breed on, as plain data that can be sent to another thread. */
export interface RoomsAhead {
	/** The breeders of each room, males and females, with their kinship as expected. */
	readonly table: GroupKinship;
	/** The same with the least and the greatest kinship that the record leaves open. */
	readonly least: GroupKinship;
	readonly greatest: GroupKinship;
	/** Males and females of each room, by their numbers in the table of the line; in the order of these tables. */
	readonly pools: readonly Pool[];
	readonly rooms: readonly RoomAhead[];
	/** Rooms that hold fish of the line, but cannot breed them: one sex only, or a single fish. */
	readonly roomsLeftOut: number;
}

/**
 * Rooms ahead: which fish would go on breeding if nothing changed, and how related are they?
 *
 * In each room all males and all females of now are drawn from, ten of each at most; fish not sexed are halved by
 * chance. Both the expected course and the play of chance start from this, so that they speak of the same rooms.
 * Source: pools of groups as in rules G5 and G6 of `groupKinship`; the numbers of breeders are our own choice.
 * Cost: O(groups squared).
 *
 * @param living groups with fish; those without a room are left out
 * @returns rooms in order of their ids; empty where no room can breed
 */
export function roomsAhead(kinship: LineKinship, living: readonly Group[]): RoomsAhead {
	const groupsIn = new Map<string, Group[]>();
	for (const group of living)
		if (group.room) groupsIn.set(group.room, [...(groupsIn.get(group.room) ?? []), group]);
	const all = [...groupsIn]
		.sort(([a], [b]) => (a < b ? -1 : 1))
		.map(([room, groups]) => ({ room, ...fishOf(kinship, groups) }));
	const breeding = all.filter(({ males, females }) => males.length > 0 && females.length > 0);
	const pools = breeding.flatMap(({ room, males, females }) => [
		{ unit: `${room}, males`, fish: males },
		{ unit: `${room}, females`, fish: females }
	]);
	return {
		table: poolsTable(kinship.table, pools),
		least: poolsTable(kinship.bounds.least, pools),
		greatest: poolsTable(kinship.bounds.greatest, pools),
		pools,
		rooms: breeding.map(({ room, males, females }) => ({
			...{ room, males: [`${room}, males`], females: [`${room}, females`] },
			...{ fathers: breedersOf(males), mothers: breedersOf(females) }
		})),
		roomsLeftOut: all.length - breeding.length
	};
}

function fishOf({ events, table }: LineKinship, groups: readonly Group[]) {
	const males: Counted[] = [];
	const females: Counted[] = [];
	const held = (side: readonly Counted[]) => side.reduce((sum, { fish }) => sum + fish, 0);
	for (const group of groups)
		for (const id of events.units.get(group.id) ?? []) {
			const fish = events.fishNow.get(id) ?? 0;
			const unit = table.index.get(id);
			if (fish === 0 || unit === undefined) continue;
			if (id.endsWith('/males')) males.push({ unit, fish });
			else if (id.endsWith('/females')) females.push({ unit, fish });
			else if (fish > 1 && table.count[unit]! > 1) {
				const [more, fewer] = held(males) <= held(females) ? [males, females] : [females, males];
				more.push({ unit, fish: Math.ceil(fish / 2) });
				fewer.push({ unit, fish: Math.floor(fish / 2) });
			}
		}
	return { males, females };
}
