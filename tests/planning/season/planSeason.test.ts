/** Season plans against every plan there is: nothing better exists, whatever the limits and wishes. */
import loadHighs from 'highs';
import { describe, expect, it } from 'vitest';
import { planSeason } from '#planning/season/planSeason.ts';
import { seasonChoices } from '#planning/season/seasonChoices.ts';
import { seasonBags } from '#planning/season/possibleBags.ts';
import { quickPlan } from '#planning/season/quickPlan.ts';
import type { SeasonPlan, SeasonProblem } from '#planning/season/season.ts';
import { everyPlan, type TriedPlan } from '#tests/reference/everyPlan.ts';
import { smallSeason } from './smallSeason.ts';

const solver = await loadHighs();
const seconds = 60;
const seeds = Array.from({ length: 300 }, (_, i) => i + 1);
const objectiveOf = ({ figures }: TriedPlan) => figures.objective;

/** Of all plans the best that gives up the fewest wishes. */
function bestOf(plans: readonly TriedPlan[], plan: SeasonPlan): { fewest: number; objective: number } {
	const fewest = Math.min(...plans.map(({ notKept }) => notKept.length));
	const same = plans.filter(({ notKept }) => notKept.every((wish) => plan.givenUp.includes(wish)));
	return { fewest, objective: Math.min(...same.map(objectiveOf)) };
}

describe('plans against full enumeration, 300 seeded seasons', () => {
	it('the same objective, proven, with the fewest wishes given up', () => {
		const bound: Record<string, number> = {};
		for (const seed of seeds) {
			const problem = smallSeason(seed);
			const plans = everyPlan(problem, seasonBags(problem));
			const plan = planSeason(problem, { solver, seconds });
			const best = bestOf(plans, plan);
			expect(plan.givenUp.length, `season ${seed}: wishes`).toBe(best.fewest);
			expect(plan.figures.objective, `season ${seed}: objective`).toBeCloseTo(best.objective, 9);
			expect(plan.isProven, `season ${seed}: proven`).toBe(true);
			expect(plan.bound, `season ${seed}: bound`).toBeLessThanOrEqual(best.objective + 1e-9);
			for (const wish of plan.givenUp) bound[wish] = (bound[wish] ?? 0) + 1;
		}
		// Every sort of wish clashed somewhere, or the seasons would not try them.
		for (const wish of ['holders', 'blood', 'this bag', 'that bag', 'trips', 'bags', 'fair'])
			expect(bound[wish] ?? 0, wish).toBeGreaterThan(0);
	});

	it('wishes that clash: not all can be kept, but all without any one of them', () => {
		let clashes = 0;
		for (const seed of seeds) {
			const problem = smallSeason(seed);
			const plan = planSeason(problem, { solver, seconds });
			if (plan.clash.length === 0) {
				expect(plan.givenUp).toEqual([]);
				continue;
			}
			clashes++;
			const plans = everyPlan(problem, seasonBags(problem));
			const canKeep = (ids: readonly string[]) =>
				plans.some(({ notKept }) => notKept.every((wish) => !ids.includes(wish)));
			expect(canKeep(plan.clash), `season ${seed}`).toBe(false);
			for (const id of plan.clash)
				expect(canKeep(plan.clash.filter((one) => one !== id)), `season ${seed} without ${id}`).toBe(true);
		}
		expect(clashes).toBeGreaterThan(20);
	});

	it('the quick plan is one that may be, and never better than the best', () => {
		let nearly = 0;
		for (const seed of seeds) {
			const problem = smallSeason(seed);
			const bags = seasonBags(problem);
			const quick = quickPlan(problem, bags);
			const plans = everyPlan(problem, bags);
			const keys = quick.map(({ key }) => key).sort();
			const same = plans.find(
				({ bags: tried }) =>
					tried
						.map(({ key }) => key)
						.sort()
						.join() === keys.join()
			);
			expect(same, `season ${seed}`).toBeDefined();
			const rivals = plans.filter(({ notKept }) => notKept.length <= same!.notKept.length).map(objectiveOf);
			if (objectiveOf(same!) - Math.min(...rivals) < 1e-9) nearly++;
		}
		// How often greedy choice finds the best of small seasons; it need not.
		expect(nearly).toBeGreaterThan(seeds.length / 2);
	});
});

function withCare(problem: SeasonProblem, worstCase: number): SeasonProblem {
	return { ...problem, wishes: [], weights: { ...problem.weights, worstCase } };
}

it('a careful plan is never worse in the worst case than a plain one', () => {
	let better = 0;
	for (const seed of seeds) {
		const [plain, half, careful] = [0, 0.5, 1].map(
			(care) => planSeason(withCare(smallSeason(seed), care), { solver, seconds }).figures.worstObjective
		) as [number, number, number];
		expect(half, `season ${seed}`).toBeLessThanOrEqual(plain + 1e-9);
		expect(careful, `season ${seed}`).toBeLessThanOrEqual(half + 1e-9);
		if (careful < plain - 1e-9) better++;
	}
	expect(better).toBeGreaterThan(10);
});

/** The same season with its lists in another order. */
function shuffled(problem: SeasonProblem): SeasonProblem {
	const back = <T>(list: readonly T[]) => [...list].reverse();
	const [rooms, lines] = [problem.rooms.length - 1, problem.lines.length - 1];
	const holdings = problem.holdings.length - 1;
	const swapKinship = (line: number) => {
		const count = problem.holdings.filter((one) => one.line === line).length;
		const table = problem.lines[line]!.kinship;
		const order = [...table.keys()].map((i) => (i < count ? count - 1 - i : table.length - 1 - (i - count)));
		return order.map((i) => order.map((j) => table[i]![j]!));
	};
	return {
		...problem,
		rooms: back(problem.rooms),
		lines: back(problem.lines.map((line, l) => ({ ...line, kinship: swapKinship(l) }))),
		holdings: back(problem.holdings).map((one) => ({
			...one,
			room: rooms - one.room,
			line: lines - one.line
		})),
		sources: back(problem.sources).map((one) => ({
			...one,
			...{ room: rooms - one.room, line: lines - one.line },
			...{ withFemales: back(one.withFemales), withMales: back(one.withMales) },
			...{ withSources: back(one.withSources), cameFrom: one.cameFrom < 0 ? -1 : rooms - one.cameFrom }
		})),
		tripCost: back(problem.tripCost.map(back)),
		apart: problem.apart.map(([a, b]) => [rooms - a, rooms - b]),
		outcrosses: problem.outcrosses.map(([a, b]) => [lines - a, lines - b]),
		wishes: problem.wishes.map((wish) =>
			wish.wish === 'holders'
				? { ...wish, line: lines - wish.line }
				: wish.wish === 'newBlood'
					? { ...wish, holding: holdings - wish.holding }
					: wish
		)
	};
}

it('the same plan whatever the order of rooms, lines, holdings and groups', () => {
	for (const seed of seeds.slice(0, 150)) {
		const problem = smallSeason(seed);
		const keys = (of: SeasonProblem) => planSeason(of, { solver, seconds }).bags.map(({ key }) => key);
		expect(keys(shuffled(problem)), `season ${seed}`).toEqual(keys(problem));
	}
});

it('choices: no plan has fewer trips, less inbreeding or more holders than the one named for it', () => {
	let different = 0;
	for (const seed of seeds.slice(0, 100)) {
		const problem = { ...smallSeason(seed), wishes: [] };
		const choices = seasonChoices(problem, { solver, seconds });
		const plans = everyPlan(problem, seasonBags(problem));
		const of = (name: string) => choices.find((one) => one.name === name)!.plan.figures;
		const missing = ({ lines }: TriedPlan['figures']) =>
			lines.reduce((sum, { holdersAfter }, l) => {
				return sum + Math.max(0, problem.lines[l]!.wantedHolders - holdersAfter);
			}, 0);
		const least = (figure: (figures: TriedPlan['figures']) => number) =>
			Math.min(...plans.map(({ figures }) => figure(figures)));
		expect(of('mostFreshBlood').meanAfter, `season ${seed}`).toBeCloseTo(
			least(({ meanAfter }) => meanAfter),
			9
		);
		if (problem.weights.holder === 0 && problem.weights.waiting === 0)
			expect(of('fewestTrips').tripCost, `season ${seed}`).toBe(least(({ tripCost }) => tripCost));
		if (problem.holdings.every(({ waiting }) => waiting < 0))
			expect(missing(of('mostHolders')), `season ${seed}`).toBe(least(missing));
		different += choices.filter(({ sameAs }) => sameAs === null).length - 1;
	}
	expect(different).toBeGreaterThan(50);
});
