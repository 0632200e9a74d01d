import { bagKey, type BagAsked } from './bagKey.ts';
import type { PossibleBag, SeasonProblem } from './season.ts';
import { sharesOf } from './shares.ts';

/**
 * A bag put together by hand: what would it bring?
 *
 * Nothing is forbidden here; `seasonStops` tells what stands against it. Cost: sources given^2.
 *
 * @param asked sources with their fish, whole numbers from 0, and the holding they go to, each by its place
 */
export function bagByHand(problem: SeasonProblem, asked: BagAsked): PossibleBag {
	const { line, room } = problem.holdings[asked.holding]!;
	const { share, mates } = sharesOf(problem, asked.holding, asked.gives);
	return {
		key: bagKey(problem, asked),
		line,
		holding: asked.holding,
		gives: asked.gives,
		share,
		mates,
		leastBad: false,
		sendsBack: asked.gives.some(({ source }) => problem.sources[source]!.cameFrom === room)
	};
}
