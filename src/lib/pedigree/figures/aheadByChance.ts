import { projectRoomsByChance } from '#genetics/ahead/projectRoomsByChance.ts';
import { randomFrom } from '#genetics/drop/randomFrom.ts';
import { generationsAhead } from './aheadOf.ts';
import type { RoomsAhead } from './roomsAhead.ts';

/** In 19 of 20 tries the figure is between low and high. */
export interface Between {
	readonly low: number;
	readonly high: number;
}
export interface AheadByChance {
	/** How often it was played. */
	readonly times: number;
	/** One for each generation to come, the first first: gene diversity of the breeders. */
	readonly diversity: readonly Between[];
	readonly inbreeding: readonly Between[];
}

/** Fewer times say little about the ends. */
const leastTimes = 40;

/**
 * Ahead by chance: how far may chance lead the next ten generations away from what is expected?
 *
 * @param ask the rooms as `aheadOf` takes them; `seed` makes it repeatable
 * @param tell after every fiftieth part, with the answer so far once it says something
 */
export function aheadByChance(
	ask: Pick<RoomsAhead, 'table' | 'rooms'> & { readonly times: number; readonly seed: number },
	tell: (progress: { readonly done: number; readonly of: number; readonly soFar?: AheadByChance }) => void
): AheadByChance {
	const { table, rooms, times, seed } = ask;
	const every = Math.max(1, Math.round(times / 50));
	const answer = (played: number, spread: ReturnType<typeof projectRoomsByChance>): AheadByChance => ({
		times: played,
		diversity: spread.map(({ geneDiversity: { low, high } }) => ({ low, high })),
		inbreeding: spread.map(({ inbreeding: { low, high } }) => ({ low, high }))
	});
	const spread = projectRoomsByChance(table, rooms, generationsAhead, {
		...{ random: randomFrom(seed), times },
		hear(played, soFar) {
			if (played % every !== 0) return;
			const enough = played >= leastTimes && played % (5 * every) === 0;
			tell({ done: played, of: times, ...(enough && { soFar: answer(played, soFar()) }) });
		}
	});
	return answer(times, spread);
}
