import { assign } from './assign.ts';
import type { Broods } from './broods.ts';
import type { Chance } from './chance.ts';

/** How rooms are matched in a simulated exchange. The ring is `circle`; its turning form `rotating`. */
export type ExchangeOfRooms = 'random' | 'circle' | 'rotating' | 'leastRelated';

/**
 * From which room each room gets a fish.
 *
 * @param nth which exchange this is, from 0: the rotating ring goes on by one room every time
 * @returns the donor of each room, never itself
 */
export function donorsOf(exchange: ExchangeOfRooms, broods: Broods, nth: number, chance: Chance): Int32Array {
	const { rooms } = broods;
	switch (exchange) {
		case 'circle':
			return shifted(rooms, 1);
		case 'rotating':
			return shifted(rooms, 1 + (nth % (rooms - 1)));
		case 'random':
			for (;;) {
				const order = chance.order(rooms);
				if (order.every((donor, room) => donor !== room)) return order;
			}
		case 'leastRelated':
			// A room's own fish cost more than any exchange can: kinships lie below 1.
			return assign(rooms, (room, donor) =>
				room === donor ? rooms + 1 : kinshipOfRooms(broods, room, donor)
			);
	}
}

const shifted = (rooms: number, by: number) =>
	Int32Array.from({ length: rooms }, (_, room) => (room - by + rooms) % rooms);

/** Mean kinship of the young of two rooms. */
function kinshipOfRooms({ pairs, rooms, between }: Broods, one: number, other: number): number {
	let sum = 0;
	for (let a = one * pairs; a < (one + 1) * pairs; a++)
		for (let b = other * pairs; b < (other + 1) * pairs; b++) sum += between[a * rooms * pairs + b]!;
	return sum / pairs ** 2;
}
