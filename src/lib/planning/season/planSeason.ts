import type { Highs } from 'highs';
import { quickPlan } from './quickPlan.ts';
import type { PossibleBag, SeasonPlan, SeasonProblem } from './season.ts';
import { seasonBags } from './possibleBags.ts';
import { wishesThatClash } from './seasonClash.ts';
import { seasonFigures } from './seasonFigures.ts';
import { seasonModel } from './seasonModel.ts';
import { SeasonSolver } from './seasonSolver.ts';
import { wishesNotKept } from './wishesKept.ts';

export interface PlanBy {
	/** HiGHS, loaded by the caller: it comes as WebAssembly. */
	readonly solver: Highs;
	/** How long it may look, above 0; a plan found earlier is kept. */
	readonly seconds: number;
	/** Called with each better plan as it is found, the quick one first. */
	readonly tell?: ((plan: SeasonPlan) => void) | undefined;
}

/** Nearer to the bound than this, the solver is asked for the very best; before, for half of the way. */
const nearlyProven = 0.01;
/** Two objectives this near are the same: sums end a rounding beside each other, the solver's rows a little further. */
const sameObjective = (objective: number) => 1e-9 * Math.max(1, Math.abs(objective));

/**
 * Which bags should travel this season, so that the young everywhere are least inbred, the lines keep their variety
 * and no room is asked too much?
 *
 * Method: mixed-integer programming with HiGHS (Huangfu & Hall 2018), branch and bound without a gap, over
 * `seasonModel`; a tangent at each plan found is added until the kinship that the model counts is the true one. Every
 * answer of the solver is a bound that no plan can go below. Among equally good plans the one with the cheapest
 * trips is taken, then by the keys of its bags, so that the answer does not depend on the order of rooms and lines.
 * Wishes that clash: the fewest are given up, of these the last wished.
 *
 * Source: objective after Fernandez, Toro & Caballero 2008, Genetics 179:683; outer approximation: Duran & Grossmann
 * 1986 (from memory). Cost: 12 rooms and 5 lines well under a second.
 *
 * @returns the best plan that was found in time; see `isProven` and `bound`
 */
export function planSeason(problem: SeasonProblem, { solver, seconds, tell }: PlanBy): SeasonPlan {
	const deadline = performance.now() + seconds * 1_000;
	const bags = seasonBags(problem);
	const quick = quickPlan(problem, bags);
	const planOf = (
		chosen: readonly PossibleBag[],
		bound: number,
		clash: readonly string[] = []
	): SeasonPlan => {
		const figures = seasonFigures(problem, chosen);
		return {
			bags: [...chosen].sort((a, b) => (a.key < b.key ? -1 : 1)),
			figures,
			bound: Math.min(bound, figures.objective),
			isProven: figures.objective - bound <= sameObjective(figures.objective),
			givenUp: wishesNotKept(problem, chosen),
			clash
		};
	};
	tell?.(planOf(quick, -Infinity));
	const model = seasonModel(problem, bags, solver);
	const search = new SeasonSolver(solver, model, bags, deadline);
	try {
		let clash: readonly string[] = [];
		if (!search.canKeepAll()) {
			search.giveUp(search.leastGivenUp());
			clash = wishesThatClash(problem, search);
		}
		const allowed = new Set(search.givenUp);
		const isAllowed = (plan: readonly PossibleBag[]) =>
			wishesNotKept(problem, plan).every((wish) => allowed.has(wish));
		let best: PossibleBag[] | null = isAllowed(quick) ? quick : null;
		let objective = best ? seasonFigures(problem, best).objective : Infinity;
		search.holdKinshipAt([]);
		search.holdKinshipAt(quick);
		let bound = search.holdKinshipByParts();
		while (objective === Infinity || objective - bound > sameObjective(objective)) {
			const apart = (objective - bound) / 2;
			const gap = Number.isFinite(apart) && apart > nearlyProven ? apart : 0;
			const found = search.solve(best, gap);
			bound = Math.max(bound, found.bound);
			let isNew = false;
			for (const bags of found.met) {
				isNew = search.holdKinshipAt(bags) || isNew;
				const reached = seasonFigures(problem, bags).objective;
				if (reached >= objective || !isAllowed(bags)) continue;
				[best, objective] = [bags, reached];
				if (objective - bound > sameObjective(objective)) tell?.(planOf(best, bound, clash));
			}
			if (!found.bags || !found.isOptimal || (!isNew && gap === 0)) break;
		}
		// The tangents hold only for matrices without negative eigenvalues, as all kinships have.
		if (!search.isConvex) bound = -Infinity;
		best ??= quick;
		// A plan that only the tangents take for as good is held down too, and the first of the others asked for.
		while (objective - bound <= sameObjective(objective)) {
			const first = search.firstOfEquals(best, objective, sameObjective(objective));
			const isAsGood = seasonFigures(problem, first).objective - objective <= sameObjective(objective);
			if (isAsGood) best = first;
			if (isAsGood || !search.holdKinshipAt(first)) break;
		}
		return planOf(best, bound, clash);
	} finally {
		search.dispose();
	}
}
