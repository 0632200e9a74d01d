import { projectRooms, type GenerationAhead } from '#genetics/ahead/projectRooms.ts';
import { drawTwo, type GroupKinship } from '#genetics/groups/table.ts';
import type { RoomsAhead } from './roomsAhead.ts';

interface Ranged {
	readonly expected: number;
	readonly least: number;
	readonly greatest: number;
}
export interface AheadStep {
	/** 0 is now. */
	readonly generation: number;
	/** Gene diversity, 0 to 1, of the breeders; the range is what the record leaves open, chance comes on top. */
	readonly diversity: Ranged;
	readonly inbreeding: Ranged;
}

export const generationsAhead = 10;

/**
 * Ahead: what do the next ten generations bring if nothing changes?
 *
 * Every room breeds on with its own fish, as `roomsAhead` says, and none move between rooms. Run forward with the
 * rules of the table on the rooms as they are, not by a formula. Now is what the breeders of now hand on: each room by
 * its breeders, half by its males and half by its females. So the curve never rises: the first generation is drawn
 * from just that. Ranges hold because the rules only add and average.
 * Source: Wright (1931), Genetics 16:97, as in `projectRooms`; what now is: our own choice.
 * Cost: three projections, O(rooms squared) rows each.
 *
 * @returns now and one for each generation; empty where no room can breed
 */
export function aheadOf({ table, least, greatest, rooms }: RoomsAhead): AheadStep[] {
	if (rooms.length === 0) return [];
	const course = (of: GroupKinship) => {
		const [now, ...later] = projectRooms(of, rooms, generationsAhead);
		return [{ ...now!, geneDiversity: handedOn(of, rooms) }, ...later];
	};
	const [expected, low, high] = [course(table), course(least), course(greatest)];
	return expected.map((step, i) => ({
		generation: step.generation,
		diversity: ranged(step, high[i]!, low[i]!, (of) => of.geneDiversity),
		inbreeding: ranged(step, low[i]!, high[i]!, (of) => Math.max(0, of.inbreeding))
	}));
}

function ranged(
	of: GenerationAhead,
	low: GenerationAhead,
	high: GenerationAhead,
	figure: (of: GenerationAhead) => number
): Ranged {
	const expected = figure(of);
	return {
		expected,
		least: Math.min(expected, Math.max(0, figure(low))),
		greatest: Math.max(expected, figure(high))
	};
}

/** Gene diversity of the genes that the next generation is drawn from. */
function handedOn(table: GroupKinship, rooms: RoomsAhead['rooms']): number {
	const all = rooms.reduce((sum, { fathers, mothers }) => sum + fathers + mothers, 0);
	const weights = rooms.flatMap(({ fathers, mothers }) => Array(2).fill((fathers + mothers) / all / 2));
	let sum = 0;
	for (let i = 0; i < weights.length; i++)
		for (let j = 0; j < weights.length; j++) sum += weights[i] * weights[j] * drawTwo(table, i, j);
	return 1 - sum;
}
