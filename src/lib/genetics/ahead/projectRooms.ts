import type { GroupEvent, UnitId } from '../groups/event.ts';
import { groupKinship } from '../groups/groupKinship.ts';
import { inbreedingOf } from '../groups/inbreedingOf.ts';
import { kinshipWithSelf } from '../groups/kinshipWithSelf.ts';
import type { GroupKinship } from '../groups/table.ts';
import { kept, type MoveAhead, type RoomAhead } from './room.ts';

export interface GenerationAhead {
	/** 0 is now. */
	readonly generation: number;
	/** Mean inbreeding of the breeders of all rooms. */
	readonly inbreeding: number;
	/** 1 - mean kinship of the breeders of all rooms, a fish with itself included. */
	readonly geneDiversity: number;
	readonly inbreedingIn: ReadonlyMap<string, number>;
}

/**
 * Rooms ahead: what will the next generations bring if the rooms go on like this?
 *
 * Runs the recursion of `groupKinship` forward from the table of today: in each generation the fish of a room are
 * the young of so many of its own fathers and mothers, and of the fish that move by rule. It is not a formula for
 * an ideal population: the rooms stand as they are, related as they are. Exact expectations; see
 * `projectRoomsByChance` for how far chance may lead away.
 * Source: Wright (1931), Genetics 16:97, for the step from Nm fathers and Nf mothers; as `groupKinship` otherwise.
 * Cost: O(generations × rooms) new rows of the table.
 *
 * @param table from `groupKinship`, today
 * @param rooms at least one; each unit in one room
 * @param generations how many, at least 1
 * @param moves males that move in each generation, at most as many into a room as it has fathers; none if absent
 * @returns one for now and one for each generation; now counts the fish of the units, later the breeders
 * @throws RangeError when units, rooms or numbers do not fit
 * @example
 * const pair = groupKinship(['m', 'f'].map((unit) => ({ kind: 'founders', unit, count: 1 })));
 * const room = { room: 'harbour', males: ['m'], females: ['f'], fathers: 1, mothers: 1 };
 * projectRooms(pair, [room], 3).map(({ inbreeding }) => inbreeding) // => [0, 0, 0.25, 0.375]
 */
export function projectRooms(
	table: GroupKinship,
	rooms: readonly RoomAhead[],
	generations: number,
	moves: readonly MoveAhead[] = []
): GenerationAhead[] {
	if (!(Number.isInteger(generations) && generations >= 1))
		throw new RangeError(`projectRooms requires whole generations of at least 1, got ${generations}`);
	const into = (room: string) => moves.filter((move) => move.to === room);
	for (const { room, fathers } of rooms)
		if (into(room).reduce((sum, { males }) => sum + males, 0) > kept(fathers))
			throw new RangeError(`projectRooms requires no more males moved than there are, got more for ${room}`);
	let now = rooms.map(({ room, males, females }) => ({ room, males, females }));
	let grown = table;
	const course = [stateOf(grown, 0, now)];
	for (let generation = 1; generation <= generations; generation++) {
		const name = (room: string, what: string) => `${room}, ${what}, ${generation} generations on`;
		const events: GroupEvent[] = now.map(({ room, males, females }, i): GroupEvent => {
			const { fathers, mothers } = rooms[i]!;
			const stay = kept(fathers) - into(room).reduce((sum, move) => sum + move.males, 0);
			const leave = moves.filter((move) => move.from === room);
			const young = [
				...(stay > 0 ? [{ unit: name(room, 'sons'), count: stay }] : []),
				...leave.map(({ to, males: count }) => ({ unit: name(room, `sons for ${to}`), count })),
				{ unit: name(room, 'daughters'), count: kept(mothers) }
			];
			return {
				kind: 'generations',
				fathers: males,
				mothers: females,
				males: fathers,
				females: mothers,
				generations: 1,
				young
			};
		});
		grown = groupKinship(events, grown);
		now = now.map(({ room }) => ({
			room,
			males: [
				...(grown.index.has(name(room, 'sons')) ? [name(room, 'sons')] : []),
				...into(room).map(({ from }) => name(from, `sons for ${room}`))
			],
			females: [name(room, 'daughters')]
		}));
		course.push(stateOf(grown, generation, now));
	}
	return course;
}

function stateOf(
	table: GroupKinship,
	generation: number,
	rooms: readonly { room: string; males: readonly UnitId[]; females: readonly UnitId[] }[]
): GenerationAhead {
	const unitsOf = (room: (typeof rooms)[number]) => [...new Set([...room.males, ...room.females])];
	const all = rooms.flatMap(unitsOf);
	return {
		generation,
		inbreeding: inbreedingOf(table, all),
		geneDiversity: 1 - kinshipWithSelf(table, all),
		inbreedingIn: new Map(rooms.map((room) => [room.room, inbreedingOf(table, unitsOf(room))]))
	};
}
