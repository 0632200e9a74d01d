/**
 * A season's figures the slow way: every next breeder of a room is written down one by one, and kinships are means over
 * all pairs of them. For bags of males only or females only, to rooms with a whole number of fish, and for founding bags
 * of sexed fish.
 */
import type { PossibleBag, SeasonProblem } from '#planning/season/season.ts';

interface Breeder {
	/** The holding that it was in, or the group that it came from. */
	readonly holding: number;
	readonly source: number;
}

export interface SlowSeason {
	/** Expected inbreeding of each holding's next brood; null = none. */
	readonly after: (number | null)[];
	/** For each line: mean kinship of the next parents. */
	readonly kinship: number[];
}

export function slowSeason(problem: SeasonProblem, bags: readonly PossibleBag[]): SlowSeason {
	const parents = problem.holdings.map((_, holding) => parentsOf(problem, holding, bags));
	return {
		after: parents.map((both) =>
			both ? meanOver(both.males, both.females, (m, f) => mates(problem, both.holding, m, f)) : null
		),
		kinship: problem.lines.map((_, line) => kinshipOf(problem, line, parents))
	};
}

interface Parents {
	readonly holding: number;
	readonly males: Breeder[];
	readonly females: Breeder[];
}

function parentsOf(problem: SeasonProblem, holding: number, bags: readonly PossibleBag[]): Parents | null {
	const { males, females } = problem.holdings[holding]!;
	const coming = (sex: 'males' | 'females'): Breeder[] =>
		bags
			.filter((bag) => bag.holding === holding)
			.flatMap(({ gives }) =>
				gives.flatMap(({ source, fish }) => Array<Breeder>(fish[sex]).fill({ holding: -1, source }))
			);
	const side = (count: number, newcomers: Breeder[]): Breeder[] => {
		const stay = Math.max(0, count - newcomers.length);
		return [...newcomers, ...Array<Breeder>(stay).fill({ holding, source: -1 })];
	};
	const both = { holding, males: side(males, coming('males')), females: side(females, coming('females')) };
	return both.males.length === 0 || both.females.length === 0 ? null : both;
}

function meanOver<T>(one: readonly T[], other: readonly T[], of: (a: T, b: T) => number): number {
	let sum = 0;
	for (const a of one) for (const b of other) sum += of(a, b);
	return sum / one.length / other.length;
}

function mates(problem: SeasonProblem, holding: number, male: Breeder, female: Breeder): number {
	const { sources } = problem;
	if (male.source < 0 && female.source < 0) return problem.holdings[holding]!.within.expected;
	if (male.source >= 0 && female.source < 0) return sources[male.source]!.withFemales[holding]?.expected ?? 0;
	if (male.source < 0) return sources[female.source]!.withMales[holding]?.expected ?? 0;
	if (male.source === female.source) return sources[male.source]!.within.expected;
	return sources[male.source]!.withSources[female.source]?.expected ?? 0;
}

function kinshipOf(problem: SeasonProblem, line: number, parents: readonly (Parents | null)[]): number {
	const holdings = problem.holdings.flatMap((one, h) => (one.line === line ? [h] : []));
	const sources = problem.sources.flatMap((one, s) => (one.line === line ? [s] : []));
	const place = ({ holding, source }: Breeder) =>
		holding >= 0
			? holdings.indexOf(holding)
			: sources.includes(source)
				? holdings.length + sources.indexOf(source)
				: -1;
	if (holdings.length === 0) return 0;
	const { kinship } = problem.lines[line]!;
	const weighed: (readonly [number, number])[] = [];
	const withFish = holdings.filter((h) => problem.holdings[h]!.males + problem.holdings[h]!.females > 0);
	for (const h of holdings) {
		const both = parents[h];
		// A room that still has none leaves its part to those that have fish now, as they now are.
		if (!both) for (const other of withFish) weighed.push([1 / withFish.length, holdings.indexOf(other)]);
		else
			for (const side of [both.males, both.females])
				for (const breeder of side) weighed.push([1 / 2 / side.length, place(breeder)]);
	}
	let sum = 0;
	for (const [a, i] of weighed)
		for (const [b, j] of weighed) if (i >= 0 && j >= 0) sum += a * b * kinship[i]![j]!;
	return sum / holdings.length ** 2;
}
