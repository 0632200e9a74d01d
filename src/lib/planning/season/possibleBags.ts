import { readBagKey } from './bagKey.ts';
import { bagByHand } from './bagByHand.ts';
import type { PossibleBag, SeasonProblem, SexedFish } from './season.ts';
import { stopsOfBag } from './seasonStops.ts';
import { isEmpty } from './shares.ts';
import { givingRooms } from './traffic.ts';

/**
 * A new holder could get males of any group with females of any other. Only this many of the least related such sets
 * are looked at for each; from one group alone, all.
 */
const foundingSets = 24;

/**
 * Which bags may be at all?
 *
 * Every source with fish to spare to every holding it may go to, by one sex or unsexed; to a new holder males and
 * females. What `stopsOfBag` forbids is left out, and what is too close, unless a room can get nothing else: then all
 * of that is there, marked as the least bad choice. A bag firmly wished for may be too close and have any number of
 * fish.
 *
 * Source: own choice of hard limits. Cost: sources x holdings, and sources^2 for each new holder.
 *
 * @returns ordered by key, so that the order of rooms, lines and sources in the problem does not matter
 */
export function seasonBags(problem: SeasonProblem): PossibleBag[] {
	const wished = new Map<string, PossibleBag>();
	for (const wish of problem.wishes) {
		const asked = wish.wish === 'bag' ? readBagKey(problem, wish.key) : null;
		if (asked) wished.set((wish as { key: string }).key, bagByHand(problem, asked));
	}
	const all: PossibleBag[] = [];
	for (let holding = 0; holding < problem.holdings.length; holding++) {
		const room = problem.rooms[problem.holdings[holding]!.room]!;
		if (room.isClosed || Math.min(room.bagsIn, room.tanksFree) < 1) continue;
		const may = (isEmpty(problem.holdings[holding]!) ? foundingBags : bagsWithin)(problem, holding);
		const far = may.filter(({ mates }) => mates.expected < problem.tooClose);
		all.push(...(far.length > 0 ? far : may.map((bag) => ({ ...bag, leastBad: true }))));
	}
	for (const bag of all) wished.delete(bag.key);
	for (const bag of wished.values()) {
		if (!mayBe(problem, bag)) continue;
		all.push({ ...bag, leastBad: bag.mates.expected >= problem.tooClose });
	}
	return all.sort((a, b) => (a.key < b.key ? -1 : 1));
}

function mayBe(problem: SeasonProblem, bag: PossibleBag): boolean {
	const { bagsIn, tanksFree } = problem.rooms[problem.holdings[bag.holding]!.room]!;
	const from = givingRooms(problem, bag);
	return (
		bag.share > 0 &&
		from.length <= Math.min(bagsIn, tanksFree) &&
		from.every((room) => problem.rooms[room]!.bagsOut > 0) &&
		stopsOfBag(problem, bag).length === 0
	);
}

/** Sources that could give to this holding: asked once, so that no bag is made in vain. */
function donorsTo(problem: SeasonProblem, holding: number): number[] {
	const { line, room } = problem.holdings[holding]!;
	return problem.sources.flatMap((source, s) => {
		const from = problem.rooms[source.room]!;
		if (source.room === room || from.isClosed || from.bagsOut < 1) return [];
		const isOfLine =
			source.line === line ||
			problem.outcrosses.some(
				([out, to, into = room]) => out === source.line && to === line && into === room
			);
		return isOfLine ? [s] : [];
	});
}

const none: SexedFish = { males: 0, females: 0, unsexed: 0 };

function bagsWithin(problem: SeasonProblem, holding: number): PossibleBag[] {
	const { bagOfOneSex, bagOfUnsexed } = problem;
	return donorsTo(problem, holding).flatMap((source) => {
		const { spare } = problem.sources[source]!;
		const kinds: SexedFish[] = [
			{ ...none, males: Math.min(bagOfOneSex, spare.males) },
			{ ...none, females: Math.min(bagOfOneSex, spare.females) },
			{ ...none, unsexed: Math.min(bagOfUnsexed, spare.unsexed) }
		];
		return kinds
			.filter(({ males, females, unsexed }) => males + females + unsexed > 0)
			.map((fish) => bagByHand(problem, { gives: [{ source, fish }], holding }))
			.filter((bag) => mayBe(problem, bag));
	});
}

function foundingBags(problem: SeasonProblem, holding: number): PossibleBag[] {
	const { foundingBag } = problem;
	const donors = donorsTo(problem, holding);
	const fishOf = (source: number) => {
		const { spare } = problem.sources[source]!;
		return {
			males: Math.min(foundingBag.males, spare.males),
			females: Math.min(foundingBag.females, spare.females),
			unsexed: Math.min(foundingBag.unsexed, spare.unsexed)
		};
	};
	const make = (gives: PossibleBag['gives']) => bagByHand(problem, { gives, holding });
	const alone = donors.flatMap((source) => {
		const { males, females, unsexed } = fishOf(source);
		const sets: SexedFish[] = [];
		if (males > 0 && females > 0) sets.push({ males, females, unsexed: 0 });
		if (unsexed > 1) sets.push({ ...none, unsexed });
		return sets.map((fish) => make([{ source, fish }]));
	});
	const two = donors
		.flatMap((sires) =>
			donors.flatMap((dams) => {
				const { males } = fishOf(sires);
				const { females } = fishOf(dams);
				if (sires === dams || males === 0 || females === 0) return [];
				return [
					make([
						{ source: sires, fish: { ...none, males } },
						{ source: dams, fish: { ...none, females } }
					])
				];
			})
		)
		.filter((bag) => mayBe(problem, bag))
		.sort((a, b) => a.mates.expected - b.mates.expected || (a.key < b.key ? -1 : 1))
		.slice(0, foundingSets);
	return [...alone.filter((bag) => mayBe(problem, bag)), ...two];
}
