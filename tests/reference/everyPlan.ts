/** The slow and obvious planner: tries every set of bags. For tests alone. */
import type { PossibleBag, SeasonFigures, SeasonProblem } from '#planning/season/season.ts';
import { seasonFigures } from '#planning/season/seasonFigures.ts';
import { goTogether, seasonStops } from '#planning/season/seasonStops.ts';
import { wishesNotKept } from '#planning/season/wishesKept.ts';

export interface TriedPlan {
	readonly bags: readonly PossibleBag[];
	readonly figures: SeasonFigures;
	readonly notKept: readonly string[];
}

/** Every set of bags that no stop forbids, wishes aside. */
export function everyPlan(problem: SeasonProblem, bags: readonly PossibleBag[]): TriedPlan[] {
	const plans: TriedPlan[] = [];
	for (let set = 0; set < 2 ** bags.length; set++) {
		const chosen = bags.filter((_, b) => (set >> b) & 1);
		const fits = problem.holdings.every((_, h) => {
			const here = chosen.filter(({ holding }) => holding === h);
			const alone = here.every((one, i) =>
				here.slice(i + 1).every((other) => goTogether(problem, one, other))
			);
			return alone && (here.length < 2 || here.reduce((sum, { share }) => sum + share, 0) <= 1 + 1e-9);
		});
		if (!fits || seasonStops(problem, chosen).some(({ stop }) => stop !== 'wish')) continue;
		const notKept = wishesNotKept(problem, chosen);
		plans.push({ bags: chosen, figures: seasonFigures(problem, chosen), notKept });
	}
	return plans;
}
