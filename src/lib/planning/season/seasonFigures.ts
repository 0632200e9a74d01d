import { kinshipOfOrigin, lineOrigin, originChange } from './geneOrigin.ts';
import { counted, sumOfRanges } from './ranges.ts';
import type { HoldingFigures, PossibleBag, Range, SeasonFigures, SeasonProblem } from './season.ts';
import { isEmpty, sharesOf } from './shares.ts';
import { trafficOf } from './traffic.ts';
import { newHolders } from './wishesKept.ts';

/** Mates at least this related are as close as half brother and sister. */
export const halfSibs = 0.125;

/**
 * What do these bags bring, whether planned or chosen by hand?
 *
 * The next brood of a room with fish: F = (1 - S) within + the share of each bag times its mates' kinship, S being the
 * sum of the shares (choices by hand may go above 1: then each counts that much less). A new holder's: see `sharesOf`.
 *
 * Source: Wright 1922 for the brood; Ballou & Lacy 1995 for the kinship of a line; their sum after Fernandez, Toro &
 * Caballero 2008, Genetics 179:683 (from memory). Cost: bags x (holdings + sources of a line).
 */
export function seasonFigures(problem: SeasonProblem, bags: readonly PossibleBag[]): SeasonFigures {
	const { weights } = problem;
	const toHolding = problem.holdings.map((): PossibleBag[] => []);
	for (const bag of bags) toHolding[bag.holding]!.push(bag);
	const holdings = problem.holdings.map((_, holding) =>
		holdingFigures(problem, holding, toHolding[holding]!)
	);
	const lines = problem.lines.map((_, line) => lineFigures(problem, line, toHolding));
	const traffic = trafficOf(problem, bags);
	const trips = traffic.trips.map((pair) => {
		const rooms = [Math.floor(pair / problem.rooms.length), pair % problem.rooms.length] as const;
		return { rooms, cost: problem.tripCost[rooms[0]]![rooms[1]]! };
	});
	const tripCost = trips.reduce((sum, { cost }) => sum + cost, 0);
	let beside = weights.trip * tripCost + weights.bag * traffic.bags;
	for (const { mates, sendsBack } of bags)
		beside += (mates.expected >= halfSibs ? weights.closeMates : 0) + (sendsBack ? weights.sendBack : 0);
	for (const [line, { wantedHolders }] of problem.lines.entries()) {
		const { kinshipAfter, holdersAfter } = lines[line]!;
		const count = problem.holdings.filter((holding) => holding.line === line).length;
		beside += weights.lambda * count * kinshipAfter;
		beside += weights.holder * Math.max(0, wantedHolders - holdersAfter);
	}
	for (const [h, { waiting }] of problem.holdings.entries())
		if (waiting >= 0 && toHolding[h]!.length === 0) beside += weights.waiting * waitingFactor(waiting);
	const inbreeding = (worstCase: number) =>
		holdings.reduce((sum, { after }) => sum + (after ? counted(after, worstCase) : 0), 0);
	const present = holdings.filter(({ before }) => before !== null);
	const mean = (of: (figures: HoldingFigures) => Range | null) =>
		present.length === 0 ? 0 : present.reduce((sum, one) => sum + of(one)!.expected, 0) / present.length;
	return {
		objective: inbreeding(weights.worstCase) + beside,
		worstObjective: inbreeding(1) + beside,
		holdings,
		lines,
		trips,
		tripCost,
		bags: traffic.bags,
		meanBefore: mean(({ before }) => before),
		meanAfter: mean(({ after }) => after)
	};
}

/** The first of a waiting list counts twice, the next one and a half times, and so on. */
export const waitingFactor = (place: number): number => 1 + 1 / (1 + place);

function holdingFigures(
	problem: SeasonProblem,
	holding: number,
	bags: readonly PossibleBag[]
): HoldingFigures {
	const of = problem.holdings[holding]!;
	if (isEmpty(of)) {
		const founding = sharesOf(
			problem,
			holding,
			bags.flatMap(({ gives }) => gives)
		);
		return { holding, before: null, after: founding.breeds ? founding.mates : null };
	}
	const shares = bags.reduce((sum, { share }) => sum + share, 0);
	const after = sumOfRanges([
		[Math.max(0, 1 - shares), of.within],
		...bags.map(({ share, mates }) => [share / Math.max(1, shares), mates] as const)
	]);
	return { holding, before: of.within, after: bags.length === 0 ? of.within : after };
}

function lineFigures(
	problem: SeasonProblem,
	line: number,
	toHolding: readonly (readonly PossibleBag[])[]
): SeasonFigures['lines'][number] {
	const origin = lineOrigin(problem, line);
	const c = origin.stay.slice();
	for (const h of origin.holdings) {
		const bags = toHolding[h]!;
		// Several bags that found one holding found it together; shares above 1 count less.
		const all = isEmpty(problem.holdings[h]!)
			? bags.length
			: Math.max(
					1,
					bags.reduce((sum, { share }) => sum + share, 0)
				);
		for (const bag of bags) {
			const { places, amounts, stayLess } = originChange(problem, origin, bag);
			for (const [i, place] of places.entries()) c[place]! += amounts[i]! / all;
			if (stayLess > 0) for (let i = 0; i < c.length; i++) c[i]! -= (stayLess / all) * origin.stay[i]!;
		}
	}
	return {
		kinshipBefore: kinshipOfOrigin(origin, origin.stay),
		kinshipAfter: kinshipOfOrigin(origin, c),
		holdersAfter: problem.lines[line]!.holders + newHolders(problem, toHolding.flat(), line)
	};
}
