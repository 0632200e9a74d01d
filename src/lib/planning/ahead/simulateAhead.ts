import { spreadOf, type Spread } from '#genetics/drop/spreadOf.ts';
import { chanceFrom } from '../chance.ts';
import { Future } from './future.ts';
import { rateToCome, type RateToCome } from './rateToCome.ts';
import type { LineToCome, StrategyAhead } from './strategyAhead.ts';

/** One generation under one strategy, over all futures in which the line is still there. */
export interface GenerationToCome {
	/** 0 is now. */
	readonly generation: number;
	/** Of the breeders, rooms together; null when no future has the line any more. 19 of 20 between low and high. */
	readonly inbreeding: Spread | null;
	readonly geneDiversity: Spread | null;
	/** How fast inbreeding goes up, from half way to this generation on; null now, and where nothing is left. */
	readonly rate: RateToCome | null;
	/** The same with what the record leaves open about the fish of today drawn too; null where nothing is open. */
	readonly withRecord: { readonly inbreeding: Spread; readonly geneDiversity: Spread } | null;
	/** Share of the futures in which no room has the line any more. */
	readonly lost: number;
}

/** How futures are played. */
export interface FuturesAsked {
	/** A whole number, at least 1; 5 to 20 is what can be foreseen. */
	readonly generations: number;
	/** How many futures under each strategy, or under all; whole numbers, at least 1. */
	readonly futures: number | readonly number[];
	/** A whole number: the same seed gives the same answer. */
	readonly seed: number;
	/** Called after each future, with how many have been played of all, and what is known so far. */
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
 * play, as the record expects them. Where it leaves something open, each future has its own draw of what may be true:
 * the choices stay those of the record, and what they come to is measured both ways. `leastRelated` with `together` is a
 * local search round by round: it is not proved best.
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
	const { generations, seed, hear } = asked;
	check(line, strategies, asked);
	const played = strategies.map((strategy, i) => ({
		future: new Future(line, strategy, chanceFrom(seed)),
		times: typeof asked.futures === 'number' ? asked.futures : asked.futures[i]!,
		ends: Array.from({ length: generations + 1 }, newEnds)
	}));
	let done = 0;
	const answer = () =>
		played.map(({ ends }) =>
			ends.map((end, generation) => toCome(end, generation, ends[0]!.inbreeding.length))
		);
	for (let nth = 0; played.some(({ times }) => nth < times); nth++)
		for (const { future, times, ends } of played) {
			if (nth >= times) continue;
			const course: number[] = [];
			for (const [generation, end] of ends.entries()) {
				const measured = generation === 0 ? future.begin(nth) : future.step(generation);
				if (!measured) break;
				course.push(measured.inbreeding);
				end.halfWay.push(course[halfWayTo(generation)]!);
				end.inbreeding.push(measured.inbreeding);
				end.geneDiversity.push(measured.geneDiversity);
				if (!measured.truth) continue;
				end.trueInbreeding.push(measured.truth.inbreeding);
				end.trueDiversity.push(measured.truth.geneDiversity);
			}
			hear?.(++done, answer);
		}
	return answer();
}

/** One generation in every future in which the line is still there. */
interface Ends {
	/** Inbreeding half way to this generation. */
	readonly halfWay: number[];
	readonly inbreeding: number[];
	readonly geneDiversity: number[];
	readonly trueInbreeding: number[];
	readonly trueDiversity: number[];
}
const newEnds = (): Ends => ({
	...{ halfWay: [], inbreeding: [], geneDiversity: [] },
	...{ trueInbreeding: [], trueDiversity: [] }
});
const halfWayTo = (generation: number) => Math.floor(generation / 2);

function toCome(end: Ends, generation: number, times: number): GenerationToCome {
	const there = end.inbreeding.length > 0;
	return {
		generation,
		inbreeding: there ? spreadOf(end.inbreeding) : null,
		geneDiversity: there ? spreadOf(end.geneDiversity) : null,
		rate: generation ? rateToCome(end.halfWay, end.inbreeding, generation - halfWayTo(generation)) : null,
		withRecord: end.trueInbreeding.length
			? { inbreeding: spreadOf(end.trueInbreeding), geneDiversity: spreadOf(end.trueDiversity) }
			: null,
		lost: 1 - end.inbreeding.length / Math.max(1, times)
	};
}

function check(line: LineToCome, strategies: readonly StrategyAhead[], asked: FuturesAsked): void {
	const whole = (value: number, least: number) => Number.isSafeInteger(value) && value >= least;
	const share = (value: number) => value >= 0 && value <= 1;
	const { generations, futures, seed } = asked;
	const counts = typeof futures === 'number' ? strategies.map(() => futures) : futures;
	if (!whole(generations, 1) || counts.some((count) => !whole(count, 1)) || !whole(seed, -Infinity))
		throw new RangeError(
			`simulateAhead requires whole numbers, got ${generations}, ${String(futures)}, ${seed}`
		);
	if (counts.length !== strategies.length)
		throw new RangeError(`simulateAhead requires futures for each strategy, got ${counts.length}`);
	if (line.rooms.length === 0) throw new RangeError('simulateAhead requires at least one room, got none');
	if (!share(line.losses.lost) || !share(line.losses.refilled))
		throw new RangeError('simulateAhead requires chances between 0 and 1');
	for (const { malesMoved, every } of strategies)
		if (!(malesMoved >= 1) || !whole(every, 1))
			throw new RangeError(`simulateAhead requires 1 or more, got ${malesMoved} males every ${every}`);
}
