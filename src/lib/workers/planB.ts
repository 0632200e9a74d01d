import { bagsOfKeys } from '#planning/season/bagsOfKeys.ts';
import { planB as planBBy, type PlanBAnswer } from '#planning/season/planB.ts';
import type { SeasonProblem } from '#planning/season/season.ts';
import type { Progress } from './progress.ts';
import { loadSolver } from './solver.ts';

export interface PlanBFound {
	readonly answers: readonly PlanBAnswer[];
}

/**
 * Plan B of a plan: a quick answer for each bag and each room at once, then what the solver finds.
 *
 * @param args.keys the bags of the plan
 * @param args.seconds how long the solver may look for each of them
 */
export async function planB(
	args: { readonly problem: SeasonProblem; readonly keys: readonly string[]; readonly seconds: number },
	tell: (progress: Progress) => void
): Promise<PlanBFound> {
	const { problem, seconds } = args;
	const plan = bagsOfKeys(problem, args.keys);
	const answers = planBBy(problem, plan, {
		...{ seconds, solver: await loadSolver() },
		tell: (found, done) => tell({ done, of: found.length, soFar: { answers: found } })
	});
	return { answers };
}
