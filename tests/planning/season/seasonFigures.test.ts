/** A plan's figures against writing down every next breeder one by one. */
import { expect, it } from 'vitest';
import { seasonBags } from '#planning/season/possibleBags.ts';
import type { PossibleBag, SeasonProblem } from '#planning/season/season.ts';
import { seasonFigures } from '#planning/season/seasonFigures.ts';
import { everyPlan } from '#tests/reference/everyPlan.ts';
import { slowSeason } from '#tests/reference/slowSeason.ts';
import { smallSeason } from './smallSeason.ts';

/** Half fish cannot be written down one by one. */
const isWhole = (problem: SeasonProblem) =>
	problem.holdings.every(({ males, females }) => Number.isInteger(males) && Number.isInteger(females));
const isSexed = ({ gives }: PossibleBag) => gives.every(({ fish }) => fish.unsexed === 0);

it('inbreeding of each room and kinship of each line as from a list of all breeders', () => {
	let compared = 0;
	let founded = 0;
	for (let seed = 1; seed <= 200; seed++) {
		const small = smallSeason(seed);
		const problem = {
			...small,
			holdings: small.holdings.map((one) => ({
				...one,
				males: Math.ceil(one.males),
				females: Math.ceil(one.females)
			}))
		};
		expect(isWhole(problem)).toBe(true);
		const bags = seasonBags(problem).filter(isSexed);
		for (const { bags: chosen } of everyPlan(problem, bags).slice(-40)) {
			const figures = seasonFigures(problem, chosen);
			const slow = slowSeason(problem, chosen);
			for (const { holding, before, after } of figures.holdings) {
				const expected = slow.after[holding]!;
				if (expected === null) expect(after, `season ${seed}`).toBeNull();
				else expect(after!.expected, `season ${seed}`).toBeCloseTo(expected, 12);
				if (before === null && after !== null) founded++;
			}
			for (const [line, { kinshipAfter }] of figures.lines.entries())
				expect(kinshipAfter, `season ${seed}`).toBeCloseTo(slow.kinship[line]!, 12);
			compared++;
		}
	}
	expect(compared).toBeGreaterThan(1_000);
	expect(founded).toBeGreaterThan(50);
});
