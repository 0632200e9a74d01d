import { roomTo } from './planWork.svelte.ts';
import type { PossibleBag } from '#planning/season/season.ts';
import { givingRooms } from '#planning/season/traffic.ts';
import { addFish, noFish } from '#records/fishCount.ts';
import type { Fish, Line } from '#records/state.ts';
import type { SeasonAsked } from '#season/seasonWords.ts';

export interface BagWords {
	readonly line: string;
	readonly code: string;
	readonly fish: Fish;
	readonly from: string;
	readonly to: string;
	readonly toRoom: string;
	/** What is put in hands: one bag of each giving room. */
	readonly parts: readonly {
		readonly fish: Fish;
		readonly from: string;
		readonly fromRoom: string;
		/** How it travels, as the drawing of the rooms tells it. */
		readonly way: 'covered' | 'drive' | 'far';
	}[];
	readonly movement: Line['movement'];
}

/** What a slip, a table and a drawing say of a bag that is planned. */
export function bagWords({ problem, words }: SeasonAsked, bag: PossibleBag): BagWords {
	const to = roomTo(problem, bag);
	// Fish to be crossed stay fish of their own line: so says their label.
	const line = words.lines[problem.sources[bag.gives[0]!.source]!.line]!;
	const parts = givingRooms(problem, bag).map((room) => {
		const own = bag.gives.filter(({ source }) => problem.sources[source]!.room === room);
		const isCovered = (problem.tripCost[room]?.[to] ?? 0) === 0;
		return {
			fish: own.reduce((sum, { fish }) => addFish(sum, fish), noFish),
			...{ from: words.rooms[room]!.name, fromRoom: words.rooms[room]!.id },
			way: isCovered
				? ('covered' as const)
				: words.trips[room]?.[to] === 'far'
					? ('far' as const)
					: ('drive' as const)
		};
	});
	return {
		...{ line: line.name, code: line.code, movement: line.movement, parts },
		fish: parts.reduce((sum, { fish }) => addFish(sum, fish), noFish),
		from: parts.map(({ from }) => from).join(' and '),
		...{ to: words.rooms[to]!.name, toRoom: words.rooms[to]!.id }
	};
}
