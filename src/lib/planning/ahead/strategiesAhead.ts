import { simulateAhead, type GenerationToCome } from './simulateAhead.ts';
import type { LineToCome, StrategyAhead } from './strategyAhead.ts';

/** The ways of swapping that are set side by side, each a male a room a generation at most. */
export type StrategyName =
	'nothing' | 'random' | 'ring' | 'turningRing' | 'leastRelated' | 'evenAtHome' | 'plan';

const one = { malesMoved: 1, every: 1 } as const;
const ways: { readonly [Name in StrategyName]: StrategyAhead } = {
	nothing: { exchange: 'none', breeders: 'random', ...one },
	random: { exchange: 'random', breeders: 'random', ...one },
	ring: { exchange: 'ring', breeders: 'random', ...one },
	turningRing: { exchange: 'rotating', breeders: 'random', ...one },
	leastRelated: { exchange: 'leastRelated', breeders: 'random', ...one },
	evenAtHome: { exchange: 'none', breeders: 'even', ...one },
	plan: { exchange: 'leastRelated', breeders: 'even', ...one }
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
	readonly course: readonly GenerationToCome[];
}
export interface StrategiesAhead {
	/** Futures played under each strategy. */
	readonly futures: number;
	readonly strategies: readonly StrategyCourse[];
}

/** Fewer futures say little about the ends. */
const leastFutures = 40;

/** Several ways of swapping beside each other, as `simulateAhead` plays them. */
export function strategiesAhead(
	asked: StrategiesAsked,
	tell: (progress: { readonly done: number; readonly of: number; readonly soFar?: StrategiesAhead }) => void
): StrategiesAhead {
	const { line, strategies, generations, futures, seed } = asked;
	const every = Math.max(1, Math.round(futures / 50));
	const answer = (played: number, courses: readonly (readonly GenerationToCome[])[]): StrategiesAhead => ({
		futures: played,
		strategies: strategies.map((name, i) => ({ name, course: courses[i]! }))
	});
	const courses = simulateAhead(
		line,
		strategies.map((name) => ways[name]),
		{
			...{ generations, futures, seed },
			hear(played, soFar) {
				if (played % every !== 0) return;
				const enough = played >= leastFutures && played % (10 * every) === 0;
				tell({ done: played, of: futures, ...(enough && { soFar: answer(played, soFar()) }) });
			}
		}
	);
	return answer(futures, courses);
}
