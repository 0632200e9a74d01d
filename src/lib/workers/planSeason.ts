import { planSeason as planBy } from '#planning/season/planSeason.ts';
import { seasonBags } from '#planning/season/possibleBags.ts';
import { quickPlan } from '#planning/season/quickPlan.ts';
import type { SeasonPlan, SeasonProblem } from '#planning/season/season.ts';
import { seasonChoices, type SeasonChoice } from '#planning/season/seasonChoices.ts';
import { seasonFigures } from '#planning/season/seasonFigures.ts';
import { wishesNotKept } from '#planning/season/wishesKept.ts';
import type { Progress } from './progress.ts';
import { loadSolver } from './solver.ts';

export interface SeasonPlanned {
	/** The balanced plan first. */
	readonly choices: readonly SeasonChoice[];
}

/** Four choices, and the quick plan before them. */
const steps = 5;

/**
 * Plan a season: a usable plan at once, then the best ones as the solver proves them.
 *
 * The quick plan needs no solver, so it is told before that has loaded.
 *
 * @param args.seconds how long the solver may look, for all choices together
 * @param args.alternatives false = the balanced plan alone, as after an edit
 */
export async function planSeason(
	args: { readonly problem: SeasonProblem; readonly seconds: number; readonly alternatives?: boolean },
	tell: (progress: Progress) => void
): Promise<SeasonPlanned> {
	const { problem, seconds } = args;
	const isAlone = args.alternatives === false;
	const of = isAlone ? 2 : steps;
	const first: SeasonPlanned = { choices: [balanced(quickly(problem))] };
	tell({ done: 1, of, soFar: first });
	const solver = await loadSolver();
	if (isAlone) return { choices: [balanced(planBy(problem, { solver, seconds }))] };
	const choices = seasonChoices(problem, {
		...{ solver, seconds },
		tell: (found) => tell({ done: Math.min(of, found.length), of, soFar: { choices: found } })
	});
	return { choices };
}

const balanced = (plan: SeasonPlan): SeasonChoice => ({ name: 'balanced', plan, sameAs: null });

function quickly(problem: SeasonProblem): SeasonPlan {
	const bags = quickPlan(problem, seasonBags(problem));
	const figures = seasonFigures(problem, bags);
	return {
		...{ bags, figures, bound: -Infinity, isProven: false },
		...{ givenUp: wishesNotKept(problem, bags), clash: [] }
	};
}
