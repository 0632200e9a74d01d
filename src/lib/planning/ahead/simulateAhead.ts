import { spreadOf, type Spread } from '#genetics/drop/spreadOf.ts';
import { chanceFrom } from '../chance.ts';
import { Future } from './future.ts';
import type { LineToCome, StrategyAhead } from './strategyAhead.ts';

/** One generation under one strategy, over all futures in which the line is still there. */
export interface GenerationToCome {
	/** 0 is now. */
	readonly generation: number;
	/** Of the breeders, rooms together; null when no future has the line any more. 19 of 20 between low and high. */
	readonly inbreeding: Spread | null;
	readonly geneDiversity: Spread | null;
	/** Share of the futures in which no room has the line any more. */
	readonly lost: number;
}

/** How futures are played. */
export interface FuturesAsked {
	/** A whole number, at least 1; 5 to 20 is what can be foreseen. */
	readonly generations: number;
	/** How many futures under each strategy; a whole number, at least 1. */
	readonly futures: number;
	/** A whole number: the same seed gives the same answer. */
	readonly seed: number;
	/** Called after every so many futures of all strategies, with what is known so far. */
	readonly hear?: (played: number, soFar: () => GenerationToCome[][]) => void;
}

/**
 * Rooms to come: what becomes of a line in the rooms that have it, under several ways of swapping fish?
 *
 * Plays many futures with single fish. Exact: the kinship of all breeders, through every pedigree that is played, from
 * the kinships of today; so without losses the mean over many futures is that of the recursion of groups, where who
 * gives to whom does not hang on the fish. By chance: which fish of today breed, who are the parents of each, who
 * swaps at random, which houses lose the line and who fills them again. Not played: single genes, which add to the
 * spread; ages, rooms that grow or shrink, broods that fail. Strategies choose by the true kinships of the fish in
 * play, as a keeper with full records would. `leastRelated` with `even` plans round by round: it is not proved best.
 *
 * Source: Wright 1922, American Naturalist 56:330 (kinship of the young); Wright 1931, Genetics 16:97 (chance which
 * parents); ring: Kimura & Crow 1963, Genetical Research 4:399; least mean kinship: Ballou & Lacy 1995; one son and
 * one daughter of each brood: Wang 1997, Genetics 147:1247 (from memory).
 * Cost: futures x strategies x generations x fish squared.
 *
 * @param line rooms, kinships, losses
 * @param strategies each is played by itself from the same seed
 * @returns for each strategy one for now and one for each generation
 * @throws RangeError when units or numbers do not fit
 */
export function simulateAhead(
	line: LineToCome,
	strategies: readonly StrategyAhead[],
	asked: FuturesAsked
): GenerationToCome[][] {
	const { generations, futures, seed, hear } = asked;
	check(line, strategies, asked);
	const played = strategies.map((strategy) => ({
		future: new Future(line, strategy, chanceFrom(seed)),
		inbreeding: Array.from({ length: generations + 1 }, (): number[] => []),
		diversity: Array.from({ length: generations + 1 }, (): number[] => [])
	}));
	const answer = (times: number) =>
		played.map(({ inbreeding, diversity }) =>
			inbreeding.map((values, generation): GenerationToCome => ({
				generation,
				inbreeding: values.length ? spreadOf(values) : null,
				geneDiversity: values.length ? spreadOf(diversity[generation]!) : null,
				lost: 1 - values.length / times
			}))
		);
	for (let times = 1; times <= futures; times++) {
		for (const { future, inbreeding, diversity } of played)
			for (let generation = 0; generation <= generations; generation++) {
				const measured = generation === 0 ? future.begin() : future.step(generation);
				if (!measured) break;
				inbreeding[generation]!.push(measured.inbreeding);
				diversity[generation]!.push(measured.geneDiversity);
			}
		hear?.(times, () => answer(times));
	}
	return answer(futures);
}

function check(line: LineToCome, strategies: readonly StrategyAhead[], asked: FuturesAsked): void {
	const whole = (value: number, least: number) => Number.isSafeInteger(value) && value >= least;
	const share = (value: number) => value >= 0 && value <= 1;
	const { generations, futures, seed } = asked;
	if (!whole(generations, 1) || !whole(futures, 1) || !whole(seed, -Infinity))
		throw new RangeError(`simulateAhead requires whole numbers, got ${generations}, ${futures}, ${seed}`);
	if (line.rooms.length === 0) throw new RangeError('simulateAhead requires at least one room, got none');
	if (!share(line.losses.lost) || !share(line.losses.refilled))
		throw new RangeError('simulateAhead requires chances between 0 and 1');
	for (const { malesMoved, every } of strategies)
		if (!(malesMoved >= 1) || !whole(every, 1))
			throw new RangeError(`simulateAhead requires 1 or more, got ${malesMoved} males every ${every}`);
}
