import type { PossibleBag, SeasonProblem } from './season.ts';

/** Bags count by hand-over: fish of two groups of one room go in one, of two rooms in two. */
export function givingRooms(problem: SeasonProblem, bag: PossibleBag): number[] {
	return [...new Set(bag.gives.map(({ source }) => problem.sources[source]!.room))].sort((a, b) => a - b);
}

/** Number of an unordered pair of rooms. */
export const roomPair = (problem: SeasonProblem, one: number, other: number): number =>
	Math.min(one, other) * problem.rooms.length + Math.max(one, other);

/** How many bags each room gives and takes, and between which rooms somebody must travel. */
export interface Traffic {
	readonly out: Int32Array;
	readonly into: Int32Array;
	readonly bags: number;
	/** Pairs of rooms whose trip costs something, by number, ascending. */
	readonly trips: readonly number[];
}

export function trafficOf(problem: SeasonProblem, bags: readonly PossibleBag[]): Traffic {
	const out = new Int32Array(problem.rooms.length);
	const into = new Int32Array(problem.rooms.length);
	const trips = new Set<number>();
	let count = 0;
	for (const bag of bags) {
		const to = problem.holdings[bag.holding]!.room;
		for (const from of givingRooms(problem, bag)) {
			out[from]!++;
			into[to]!++;
			count++;
			if (problem.tripCost[from]![to]! > 0) trips.add(roomPair(problem, from, to));
		}
	}
	return { out, into, bags: count, trips: [...trips].sort((a, b) => a - b) };
}
