import type { Highs } from 'highs';
import { planSeason } from './planSeason.ts';
import type { SeasonPlan, SeasonProblem, SeasonWeights } from './season.ts';
import { seasonFigures } from './seasonFigures.ts';

export type ChoiceName = 'balanced' | 'fewestTrips' | 'mostFreshBlood' | 'mostHolders';

/** One of several clearly different plans for the same season. */
export interface SeasonChoice {
	readonly name: ChoiceName;
	/** Its figures are measured with the weights of the problem, so that the choices can stand side by side. */
	readonly plan: SeasonPlan;
	/** An earlier choice with the very same bags; null = a plan of its own. */
	readonly sameAs: ChoiceName | null;
}

export interface ChoicesBy {
	readonly solver: Highs;
	/** For all choices together, above 0; the balanced plan may take half of it. */
	readonly seconds: number;
	/** Called with the choices so far whenever there is something better to show. */
	readonly tell?: ((choices: readonly SeasonChoice[]) => void) | undefined;
}

/** Outweighs all inbreeding of a season, yet leaves it to decide between equals. */
const aboveAll = 100;
const leanings: readonly (readonly [ChoiceName, (weights: SeasonWeights) => SeasonWeights])[] = [
	['balanced', (weights) => weights],
	['fewestTrips', (weights) => ({ ...weights, trip: aboveAll })],
	[
		'mostFreshBlood',
		(weights) => ({
			...weights,
			worstCase: 0,
			lambda: 0,
			trip: 0,
			bag: 0,
			holder: 0,
			waiting: 0,
			closeMates: 0,
			sendBack: 0
		})
	],
	['mostHolders', (weights) => ({ ...weights, holder: aboveAll, waiting: aboveAll })]
];

/**
 * Which clearly different plans are there: the balanced one, the one with the fewest trips, with the most fresh blood,
 * with the most new holders?
 *
 * Each is the best plan with other weights, wishes and stops the same; then measured with the weights of the problem.
 * The fewest trips: trips outweigh everything but firm wishes and holders that are missing; of two plans with as few
 * the better one. The most fresh blood: only the inbreeding of the next broods counts.
 *
 * Source: own choice of what may differ. Cost: four times `planSeason`.
 */
export function seasonChoices(problem: SeasonProblem, { solver, seconds, tell }: ChoicesBy): SeasonChoice[] {
	const choices: SeasonChoice[] = [];
	const deadline = performance.now() + seconds * 1_000;
	for (const [name, lean] of leanings) {
		const left = Math.max(0.05, (deadline - performance.now()) / 1_000);
		const isFirst = choices.length === 0;
		const share = isFirst ? seconds / 2 : left / (leanings.length - choices.length);
		const found = planSeason(
			{ ...problem, weights: lean(problem.weights) },
			{
				solver,
				seconds: share,
				tell: isFirst && tell ? (plan) => tell([{ name, plan, sameAs: null }]) : undefined
			}
		);
		const plan = isFirst ? found : measured(problem, found, choices[0]!.plan);
		const keys = keysOf(plan);
		const same = choices.find((one) => keysOf(one.plan) === keys);
		choices.push({ name, plan, sameAs: same?.name ?? null });
		tell?.([...choices]);
	}
	return choices;
}

const keysOf = ({ bags }: SeasonPlan) => bags.map(({ key }) => key).join();

/** The same plan by the weights of the problem. That it is the best of its sort stays as it was proven. */
function measured(problem: SeasonProblem, found: SeasonPlan, balanced: SeasonPlan): SeasonPlan {
	const figures = seasonFigures(problem, found.bags);
	return { ...found, figures, bound: Math.min(balanced.bound, figures.objective) };
}
