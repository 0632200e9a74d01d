import { nothingRange, sumOfRanges } from './ranges.ts';
import type { PossibleBag, Range, SeasonHolding, SeasonProblem } from './season.ts';

/** Which part of the next parents some fish become. */
export interface Shares {
	/** Part of the room's pairs that have a newcomer, 0 to 1. */
	readonly share: number;
	/** How much of that comes from each source given, in the order given; sums to 1 when share is above 0. */
	readonly parts: readonly number[];
	/** Kinship of the newcomers with their mates. */
	readonly mates: Range;
	/** Whether a brood can come of it. */
	readonly breeds: boolean;
}

export const isEmpty = ({ males, females }: SeasonHolding): boolean => males + females === 0;

/**
 * What part of the next parents of a holding are these fish, and how related are they to their mates?
 *
 * In a room with fish newcomers take the places of as many of its own breeders of their sex, since the number of
 * breeding tanks stays as it is: a share of k / M, at most 1. They are paired with the room's own fish, not with each
 * other; fish not sexed are half males, half females. A new holder breeds whatever it gets, males with females.
 *
 * Source: own choice, as one migrant replaces one breeder in Fernandez, Toro & Caballero 2008, Genetics 179:683 (from
 * memory). Exact for newcomers of one sex; where both sexes come at once, an approximation that stays linear.
 */
export function sharesOf(
	problem: SeasonProblem,
	holding: number,
	gives: readonly PossibleBag['gives'][number][]
): Shares {
	const of = problem.holdings[holding]!;
	const males = gives.map(({ fish }) => fish.males + fish.unsexed / 2);
	const females = gives.map(({ fish }) => fish.females + fish.unsexed / 2);
	if (isEmpty(of)) return foundingShares(problem, gives, males, females);
	// Fish whose mates the room lacks breed with nobody.
	const asMales = of.females > 0 ? sideShares(males, of.males) : males.map(() => 0);
	const asFemales = of.males > 0 ? sideShares(females, of.females) : females.map(() => 0);
	const total = sum(asMales) + sum(asFemales);
	if (total === 0) return { share: 0, parts: gives.map(() => 0), mates: nothingRange, breeds: false };
	return {
		share: Math.min(1, total),
		parts: gives.map((_, i) => (asMales[i]! + asFemales[i]!) / total),
		mates: sumOfRanges(
			gives.flatMap(({ source }, i) => {
				// Nothing is known between lines: fish of another line count as unrelated.
				const { withFemales, withMales } = problem.sources[source]!;
				return [
					[asMales[i]! / total, withFemales[holding] ?? nothingRange] as const,
					[asFemales[i]! / total, withMales[holding] ?? nothingRange] as const
				];
			})
		),
		breeds: true
	};
}

const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);

/** Shares of one sex: all of it together at most 1. */
function sideShares(coming: readonly number[], own: number): number[] {
	const all = sum(coming);
	return coming.map((fish) => (fish === 0 ? 0 : fish / Math.max(own, all)));
}

function foundingShares(
	problem: SeasonProblem,
	gives: readonly PossibleBag['gives'][number][],
	males: readonly number[],
	females: readonly number[]
): Shares {
	const allMales = sum(males);
	const allFemales = sum(females);
	const breeds = allMales > 0 && allFemales > 0;
	const all = allMales + allFemales;
	const parts = gives.map((_, i) =>
		breeds ? (males[i]! / allMales + females[i]! / allFemales) / 2 : (males[i]! + females[i]!) / (all || 1)
	);
	if (!breeds) return { share: 1, parts, mates: nothingRange, breeds };
	const mates = sumOfRanges(
		gives.flatMap((sire, i) =>
			gives.map((dam, j) => {
				const one = problem.sources[sire.source]!;
				const kinship = sire.source === dam.source ? one.within : one.withSources[dam.source];
				return [(males[i]! * females[j]!) / (allMales * allFemales), kinship ?? nothingRange] as const;
			})
		)
	);
	return { share: 1, parts, mates, breeds };
}
