import { kept } from '#genetics/ahead/room.ts';
import { simulateAhead, type GenerationToCome } from './simulateAhead.ts';
import type { LineToCome, StrategyAhead } from './strategyAhead.ts';

/** The ways of swapping that are set side by side, each a male a room a generation at most. */
export type StrategyName =
	'nothing' | 'random' | 'ring' | 'turningRing' | 'leastRelated' | 'evenAtHome' | 'rule' | 'plan';

const one = { malesMoved: 1, every: 1 } as const;
const ways: { readonly [Name in StrategyName]: StrategyAhead } = {
	nothing: { exchange: 'none', breeders: 'random', ...one },
	random: { exchange: 'random', breeders: 'random', ...one },
	ring: { exchange: 'ring', breeders: 'random', ...one },
	turningRing: { exchange: 'rotating', breeders: 'random', ...one },
	leastRelated: { exchange: 'leastRelated', breeders: 'random', ...one },
	evenAtHome: { exchange: 'none', breeders: 'even', ...one },
	rule: { exchange: 'leastRelated', breeders: 'even', ...one },
	plan: { exchange: 'leastRelated', breeders: 'together', ...one }
};

export interface StrategiesAsked {
	readonly line: LineToCome;
	readonly strategies: readonly StrategyName[];
	readonly generations: number;
	readonly futures: number;
	readonly seed: number;
}
export interface StrategyCourse {
	readonly name: StrategyName;
	/** Futures played. */
	readonly futures: number;
	readonly course: readonly GenerationToCome[];
}
export interface StrategiesAhead {
	readonly strategies: readonly StrategyCourse[];
}

/** Fewer futures say little about the ends. */
const leastFutures = 40;
/** The plan is searched for: so many kinships of single fish looked at are some seconds of a phone. */
const planBudget = 6e6;

/**
 * How many futures the plan is played in: fewer where there are many fish and generations, so that a phone gets done.
 * The ends of its futures lie close together, since little in it is left to chance.
 */
export function futuresOfPlan({ line, generations, futures }: StrategiesAsked): number {
	const fish = line.rooms.reduce((sum, { fathers, mothers }) => sum + kept(fathers) + kept(mothers), 0);
	return Math.min(futures, Math.max(leastFutures, Math.round(planBudget / (fish ** 2 * generations))));
}

/** Several ways of swapping beside each other, as `simulateAhead` plays them. */
export function strategiesAhead(
	asked: StrategiesAsked,
	tell: (progress: { readonly done: number; readonly of: number; readonly soFar?: StrategiesAhead }) => void
): StrategiesAhead {
	const { line, strategies, generations, seed } = asked;
	const futures = strategies.map((name) => (name === 'plan' ? futuresOfPlan(asked) : asked.futures));
	const of = futures.reduce((sum, count) => sum + count, 0);
	const every = Math.max(1, Math.round(of / 50));
	const answer = (courses: readonly (readonly GenerationToCome[])[]): StrategiesAhead => ({
		strategies: strategies.map((name, i) => ({ name, futures: futures[i]!, course: courses[i]! }))
	});
	const courses = simulateAhead(
		line,
		strategies.map((name) => ways[name]),
		{
			...{ generations, futures, seed },
			hear(done, soFar) {
				if (done % every !== 0) return;
				const enough = done >= leastFutures * strategies.length && done % (10 * every) === 0;
				tell({ done, of, ...(enough && { soFar: answer(soFar()) }) });
			}
		}
	);
	return answer(courses);
}
