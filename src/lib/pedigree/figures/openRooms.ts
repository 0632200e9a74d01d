import { randomFrom } from '#genetics/drop/randomFrom.ts';
import type { GroupEvent, UnitId } from '#genetics/groups/event.ts';
import { groupKinship } from '#genetics/groups/groupKinship.ts';
import type { GroupKinship } from '#genetics/groups/table.ts';
import { drawOpen } from '#genetics/parents/drawOpen.ts';
import { eventsBehind } from '#genetics/parents/eventsBehind.ts';
import { openEvents } from '#genetics/parents/openEvents.ts';
import type { LineKinship } from '../lineKinship.ts';
import { poolsTable } from './poolsTable.ts';
import type { RoomsAhead } from './roomsAhead.ts';

/** What the record leaves open about the breeders of the rooms, as plain data that can be sent to another thread. */
export interface OpenRooms {
	/** The events that these fish rest on. */
	readonly events: readonly GroupEvent[];
	/** Pools of `roomsAhead`, their fish by the names of their units. */
	readonly pools: readonly {
		readonly unit: string;
		readonly fish: readonly { readonly unit: UnitId; readonly fish: number }[];
	}[];
}

/** Sums end a little beside each other. */
const rounding = 1e-9;

/** Open rooms: is anything open about these fish, and what do they rest on? @returns null where nothing is open */
export function openRooms({ events, table }: LineKinship, rooms: RoomsAhead): OpenRooms | null {
	const { least, greatest, pools } = rooms;
	const apart = (a: number, b: number) => Math.abs(a - b) > rounding;
	const isOpen = pools.some(
		(_, i) =>
			apart(least.within[i]!, greatest.within[i]!) ||
			apart(least.self[i]!, greatest.self[i]!) ||
			least.between[i]!.some((value, j) => apart(value, greatest.between[i]![j]!))
	);
	if (!isOpen) return null;
	const named = pools.map(({ unit, fish }) => ({
		unit,
		fish: fish.map((one) => ({ unit: table.units[one.unit]!, fish: one.fish }))
	}));
	const units = named.flatMap(({ fish }) => fish.map(({ unit }) => unit));
	const behind = eventsBehind(events.events, units).events;
	// What is open may also be whether fish belong to the line at all: nothing that could be drawn.
	const canBeDrawn =
		openEvents(behind).length > 0 || behind.some((event) => event.kind === 'founders' && event.assumed);
	return canBeDrawn ? { events: behind, pools: named } : null;
}

/**
 * Drawn rooms: how may the breeders of the rooms be related in truth?
 *
 * Parents and sources that are open are drawn by their weights, guesses about founders between nothing and the most;
 * fish of which it is in doubt whether they belong to the line at all are taken as the record has them.
 * Source: as `drawOpen` and `groupKinship`.
 * Cost: one table for each time.
 *
 * @returns so many tables of the pools, in the order of `roomsAhead`
 */
export function drawnRooms({ events, pools }: OpenRooms, times: number, seed: number): GroupKinship[] {
	const random = randomFrom(seed);
	return Array.from({ length: times }, () => {
		const table = groupKinship(drawOpen(events, random));
		return poolsTable(
			table,
			pools.map(({ unit, fish }) => ({
				unit,
				fish: fish.map((one) => ({ unit: table.index.get(one.unit)!, fish: one.fish }))
			}))
		);
	});
}
