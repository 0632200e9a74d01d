import { spreadOf, type Spread } from '../drop/spreadOf.ts';
import type { UnitId } from '../groups/event.ts';
import { drawDifferent, positions, type GroupKinship } from '../groups/table.ts';
import { kept, type MoveAhead, type RoomAhead } from './room.ts';

export interface ChanceAhead {
	/** 1 is the first generation to come. */
	readonly generation: number;
	readonly inbreeding: Spread;
	readonly geneDiversity: Spread;
}

/**
 * Rooms ahead by chance: how far may the next generations come out from what is expected of them?
 *
 * Plays the same plan as `projectRooms` many times with single fish: each young draws its father and mother among
 * the breeders of its room, and the kinship of all fish is followed exactly through each pedigree. The spread is
 * that of which fish become parents; that of single genes comes on top.
 * Source: Wright (1922), American Naturalist 56:330, for kinship in each pedigree; chance as in Wright (1931).
 * Cost: O(times × generations × fish²) for the fish that breed in all rooms.
 *
 * @param table from `groupKinship`, today
 * @param rooms at least one; each unit in one room
 * @param generations how many, at least 1
 * @param by random numbers, and how often it is played (200 if absent); `hear` is called after each time with how
 *   often it has been played and a function that gives the spread so far
 * @param moves as for `projectRooms`
 * @returns one for each generation to come
 * @throws RangeError when units or numbers do not fit
 * @example
 * const pair = groupKinship(['m', 'f'].map((unit) => ({ kind: 'founders', unit, count: 1 })));
 * const room = { room: 'harbour', males: ['m'], females: ['f'], fathers: 1, mothers: 1 };
 * projectRoomsByChance(pair, [room], 2, { random: randomFrom(1) })[1].inbreeding.mean // => 0.25
 */
export function projectRoomsByChance(
	table: GroupKinship,
	rooms: readonly RoomAhead[],
	generations: number,
	by: {
		readonly random: () => number;
		readonly times?: number;
		readonly hear?: (played: number, soFar: () => ChanceAhead[]) => void;
	},
	moves: readonly MoveAhead[] = []
): ChanceAhead[] {
	const { random, times = 200, hear } = by;
	if (!(Number.isInteger(generations) && generations >= 1 && times >= 1))
		throw new RangeError(`projectRoomsByChance requires at least one generation, got ${generations}`);
	const inbreeding: number[][] = Array.from({ length: generations }, () => []);
	const diversity: number[][] = Array.from({ length: generations }, () => []);
	const spread = () =>
		inbreeding.map((values, i) => ({
			generation: i + 1,
			inbreeding: spreadOf(values),
			geneDiversity: spreadOf(diversity[i]!)
		}));
	for (let played = 1; played <= times; played++) {
		let state = founding(table, rooms, random);
		for (let generation = 0; generation < generations; generation++) {
			state = nextGeneration(state, rooms, moves, random);
			const n = state.size;
			let self = 0;
			let sum = 0;
			for (let i = 0; i < n; i++) self += state.kinship[i * n + i]!;
			for (const kinship of state.kinship) sum += kinship;
			inbreeding[generation]!.push((2 * self) / n - 1);
			diversity[generation]!.push(1 - sum / (n * n));
		}
		hear?.(played, spread);
	}
	return spread();
}

/** Single fish, room by room, with the kinship of each with each, row by row. */
interface State {
	readonly size: number;
	readonly kinship: Float64Array;
	readonly rooms: readonly { readonly males: readonly number[]; readonly females: readonly number[] }[];
}

/** The fish of today that will breed, drawn out of their units. */
function founding(table: GroupKinship, rooms: readonly RoomAhead[], random: () => number): State {
	const unitOf: number[] = [];
	const draw = (left: Map<number, number>, breeders: number) =>
		Array.from({ length: breeders }, () => {
			let there = 0;
			for (const count of left.values()) there += count;
			let at = random() * there;
			let unit = -1;
			for (const [one, count] of left) if (unit < 0 && (at -= count) < 0) unit = one;
			left.set(unit, left.get(unit)! - 1);
			return unitOf.push(unit) - 1;
		});
	const fishOf = (units: readonly UnitId[]) =>
		new Map(positions(table, units, 'projectRoomsByChance').map((unit) => [unit, table.count[unit]!]));
	const placed = rooms.map(({ room, males, females, fathers, mothers }) => {
		const sons = fishOf(males);
		const daughters = males.some((unit) => females.includes(unit)) ? sons : fishOf(females);
		const there = [...new Set([sons, daughters])].flatMap((left) => [...left.values()]);
		const [m, f] = [kept(fathers), kept(mothers)];
		const fits =
			sons === daughters
				? m + f <= sum(there)
				: m <= sum([...sons.values()]) && f <= sum([...daughters.values()]);
		if (!fits)
			throw new RangeError(`projectRoomsByChance requires as many fish as breed, got fewer in ${room}`);
		return { males: draw(sons, m), females: draw(daughters, f) };
	});
	const size = unitOf.length;
	const kinship = new Float64Array(size * size);
	for (let i = 0; i < size; i++)
		for (let j = 0; j < size; j++)
			kinship[i * size + j] =
				i === j ? table.self[unitOf[i]!]! : drawDifferent(table, unitOf[i]!, unitOf[j]!);
	return { size, kinship, rooms: placed };
}

function nextGeneration(
	state: State,
	rooms: readonly RoomAhead[],
	moves: readonly MoveAhead[],
	random: () => number
): State {
	const father: number[] = [];
	const mother: number[] = [];
	const one = (list: readonly number[]) => list[Math.floor(random() * list.length)]!;
	const breeding = state.rooms.map(({ males, females }, i) => ({
		males: males.slice(0, breedersOf(rooms[i]!.fathers, random)),
		females: females.slice(0, breedersOf(rooms[i]!.mothers, random))
	}));
	const young = (room: number, count: number) =>
		Array.from({ length: count }, () => {
			mother.push(one(breeding[room]!.females));
			return father.push(one(breeding[room]!.males)) - 1;
		});
	const next = rooms.map(({ room, fathers, mothers }, i) => {
		const coming = moves.filter((move) => move.to === room);
		const stay = kept(fathers) - sum(coming.map(({ males }) => males));
		const come = coming.flatMap(({ from, males }) =>
			young(
				rooms.findIndex((other) => other.room === from),
				males
			)
		);
		const males = [...young(i, stay), ...come];
		// Which of them breed, where not all do, must not depend on where they came from.
		for (let k = males.length - 1; k > 0; k--) {
			const other = Math.floor(random() * (k + 1));
			[males[k], males[other]] = [males[other]!, males[k]!];
		}
		return { males, females: young(i, kept(mothers)) };
	});
	const size = father.length;
	const n = state.size;
	const kinship = new Float64Array(size * size);
	const parents = (i: number, j: number) => state.kinship[i * n + j]!;
	for (let i = 0; i < size; i++) {
		const [f, m] = [father[i]!, mother[i]!];
		kinship[i * size + i] = (1 + parents(f, m)) / 2;
		for (let j = 0; j < i; j++) {
			const [g, h] = [father[j]!, mother[j]!];
			kinship[i * size + j] = kinship[j * size + i] =
				(parents(f, g) + parents(f, h) + parents(m, g) + parents(m, h)) / 4;
		}
	}
	return { size, kinship, rooms: next };
}

/** A whole number of breeders whose inverse is right on average. */
function breedersOf(effective: number, random: () => number): number {
	const [below, above] = [Math.floor(effective), Math.ceil(effective)];
	if (below === above) return below;
	return random() < (1 / effective - 1 / above) / (1 / below - 1 / above) ? below : above;
}

function sum(values: readonly number[]): number {
	return values.reduce((all, value) => all + value, 0);
}
