import { roomFrom, roomTo } from './planWork.svelte.ts';
import type { PossibleBag } from '#planning/season/season.ts';
import { addFish, noFish } from '#records/fishCount.ts';
import type { Fish, Line } from '#records/state.ts';
import type { SeasonAsked } from '#season/seasonWords.ts';

export interface BagWords {
	readonly line: string;
	readonly code: string;
	readonly fish: Fish;
	readonly from: string;
	readonly to: string;
	/** Ids of the first giving room, and of the room that gets it. */
	readonly fromRoom: string;
	readonly toRoom: string;
	/** How it travels, as the drawing of the rooms tells it. */
	readonly way: 'covered' | 'drive' | 'far';
	readonly movement: Line['movement'];
}

/** What a slip, a table and a drawing say of a bag that is planned. */
export function bagWords({ problem, words }: SeasonAsked, bag: PossibleBag): BagWords {
	const [a, b] = [roomFrom(problem, bag), roomTo(problem, bag)];
	const line = words.lines[bag.line]!;
	const givers = [...new Set(bag.gives.map(({ source }) => problem.sources[source]!.room))];
	const isCovered = (problem.tripCost[a]?.[b] ?? 0) === 0;
	return {
		...{ line: line.name, code: line.code, movement: line.movement },
		fish: bag.gives.reduce((sum, { fish }) => addFish(sum, fish), noFish),
		from: givers.map((room) => words.rooms[room]!.name).join(' and '),
		to: words.rooms[b]!.name,
		...{ fromRoom: words.rooms[a]!.id, toRoom: words.rooms[b]!.id },
		way: isCovered ? 'covered' : words.trips[a]?.[b] === 'far' ? 'far' : 'drive'
	};
}
