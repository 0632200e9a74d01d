import type { PossibleBag, SeasonProblem, SeasonWish } from './season.ts';
import { isEmpty } from './shares.ts';
import { trafficOf, type Traffic } from './traffic.ts';

/** Ids of the wishes that these bags do not keep, in the order they were wished. */
export function wishesNotKept(problem: SeasonProblem, bags: readonly PossibleBag[]): string[] {
	const traffic = trafficOf(problem, bags);
	return problem.wishes.filter((wish) => !isKept(problem, bags, traffic, wish)).map(({ id }) => id);
}

/**
 * Least and greatest that a room may give less what it receives with the plan, added to its balance of the year. A room
 * that is beyond the limit already must not go further, but need not come back in one season.
 */
export const fairLimits = (balance: number, most: number): readonly [number, number] => [
	Math.min(-most, balance),
	Math.max(most, balance)
];

/** Rooms that would hold the line for the first time. */
export const newHolders = (problem: SeasonProblem, bags: readonly PossibleBag[], line: number): number =>
	new Set(
		bags
			.filter((bag) => bag.line === line && isEmpty(problem.holdings[bag.holding]!))
			.map(({ holding }) => holding)
	).size;

function isKept(
	problem: SeasonProblem,
	bags: readonly PossibleBag[],
	traffic: Traffic,
	wish: SeasonWish
): boolean {
	switch (wish.wish) {
		case 'holders':
			return problem.lines[wish.line]!.holders + newHolders(problem, bags, wish.line) >= wish.least;
		case 'newBlood':
			return bags.some(({ holding }) => holding === wish.holding);
		case 'bag':
			return bags.some(({ key }) => key === wish.key);
		case 'trips':
			return traffic.trips.length <= wish.most;
		case 'bags':
			return traffic.bags <= wish.most;
		case 'fair':
			return problem.rooms.every(({ balance }, room) => {
				const after = balance + traffic.out[room]! - traffic.into[room]!;
				const [least, most] = fairLimits(balance, wish.most);
				return after >= least && after <= most;
			});
	}
}
