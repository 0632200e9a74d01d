import { assign } from '../assign.ts';
import type { Chance } from '../chance.ts';
import type { StrategyAhead } from './strategyAhead.ts';

/**
 * From which room each room gets fish in a round.
 *
 * @param rooms those that take part and have the line, in the order of the ring
 * @param nth which round this is, from 0: the turning ring goes one room further back every time
 * @param kinship of fish of a donor and of a room, both by their place in `rooms`; asked for the least related only
 * @returns for each of `rooms` the place of its donor in `rooms`, never itself; null when nothing moves
 */
export function donorsAhead(
	exchange: StrategyAhead['exchange'],
	rooms: number,
	nth: number,
	chance: Chance,
	kinship: (room: number, donor: number) => number
): Int32Array | null {
	if (rooms < 2) return null;
	switch (exchange) {
		case 'none':
			return null;
		case 'ring':
			return before(rooms, 1);
		case 'rotating':
			return before(rooms, 1 + (nth % (rooms - 1)));
		case 'random':
			for (;;) {
				const order = chance.order(rooms);
				if (order.every((donor, room) => donor !== room)) return order;
			}
		case 'leastRelated':
			// A room's own fish cost more than any exchange can: kinships lie below 1.
			return assign(rooms, (room, donor) => (room === donor ? rooms + 1 : kinship(room, donor)));
	}
}

const before = (rooms: number, by: number) =>
	Int32Array.from({ length: rooms }, (_, room) => (room - by + rooms) % rooms);
