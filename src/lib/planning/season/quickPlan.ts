import { originChange, lineOrigin, type LineOrigin } from './geneOrigin.ts';
import { counted } from './ranges.ts';
import type { PossibleBag, SeasonProblem } from './season.ts';
import { halfSibs, seasonFigures, waitingFactor } from './seasonFigures.ts';
import { goTogether } from './seasonStops.ts';
import { isEmpty } from './shares.ts';
import { givingRooms, roomPair } from './traffic.ts';
import { fairLimits, newHolders, wishesNotKept } from './wishesKept.ts';

/** Worth more than any figure of inbreeding: what is firmly wished comes first. */
const wishWorth = 1_000;
/** A change must bring this much, or figures that differ by rounding alone would go round in a circle. */
const leastGain = 1e-12;
/** How often each bag of the plan is taken out to look for a better one. */
const rounds = 3;

/**
 * A first plan that can be used at once: which bags help most, taken one after the other?
 *
 * Method: the bag that makes the objective of `seasonFigures` least is added while one helps and everything still fits;
 * then each bag is taken out in turn and the best in its place put in, as long as that gets better. Firm wishes are
 * worth more than all figures; those that it finds no way to keep stay unkept. Not proven to be the best.
 *
 * Source: greedy construction and exchange, own choice. Cost: bags of the plan x possible bags.
 *
 * @param bags from `seasonBags`
 * @returns bags that `seasonStops` has nothing against but wishes
 */
export function quickPlan(problem: SeasonProblem, bags: readonly PossibleBag[]): PossibleBag[] {
	const parts = bags.map((bag) => partOf(problem, bag));
	let plan = filled(problem, new Hall(problem), bags, parts);
	let worth = worthOf(problem, plan);
	for (let round = 0; round < rounds; round++) {
		let better = false;
		for (const bag of plan) {
			const hall = new Hall(problem);
			for (const other of plan) if (other !== bag) hall.add(other);
			const next = filled(problem, hall, bags, parts);
			const nextWorth = worthOf(problem, next);
			if (nextWorth < worth - leastGain) {
				[plan, worth, better] = [next, nextWorth, true];
				break;
			}
		}
		if (!better) break;
	}
	return plan;
}

function worthOf(problem: SeasonProblem, plan: readonly PossibleBag[]): number {
	return seasonFigures(problem, plan).objective + wishWorth * wishesNotKept(problem, plan).length;
}

/** What a bag brings by itself, the kinship of its whole line and its trips left out. */
function partOf(problem: SeasonProblem, bag: PossibleBag): number {
	const { weights } = problem;
	const holding = problem.holdings[bag.holding]!;
	const mates = counted(bag.mates, weights.worstCase);
	const young = isEmpty(holding) ? mates : bag.share * (mates - counted(holding.within, weights.worstCase));
	return (
		young +
		weights.bag * givingRooms(problem, bag).length +
		(bag.mates.expected >= halfSibs ? weights.closeMates : 0) +
		(bag.sendsBack ? weights.sendBack : 0)
	);
}

function filled(
	problem: SeasonProblem,
	hall: Hall,
	bags: readonly PossibleBag[],
	parts: readonly number[]
): PossibleBag[] {
	for (;;) {
		let best: PossibleBag | null = null;
		let gain = -leastGain;
		for (const [b, bag] of bags.entries()) {
			if (!hall.fits(bag)) continue;
			const change = parts[b]! + hall.changeBeside(bag);
			// The list is in the order of keys: the first of equals is taken, whatever the order of rooms and lines.
			if (change < gain - leastGain) [best, gain] = [bag, change];
		}
		if (!best) return hall.bags;
		hall.add(best);
	}
}

/** The bags so far, and what there is still room for. */
class Hall {
	readonly bags: PossibleBag[] = [];
	readonly #problem: SeasonProblem;
	readonly #into: Int32Array;
	readonly #out: Int32Array;
	readonly #left: { males: number; females: number; unsexed: number }[];
	readonly #toHolding: PossibleBag[][];
	readonly #pairs = new Set<number>();
	readonly #origins: LineOrigin[];
	readonly #shares: Float64Array[];
	/** For each line, kinship of a gene of each place with the next parents' as they stand. */
	readonly #meets: (Float64Array | null)[];
	readonly #most: { bags: number; trips: number; fair: number };
	#count = 0;

	constructor(problem: SeasonProblem) {
		this.#problem = problem;
		this.#into = new Int32Array(problem.rooms.length);
		this.#out = new Int32Array(problem.rooms.length);
		this.#left = problem.sources.map(({ spare }) => ({ ...spare }));
		this.#toHolding = problem.holdings.map(() => []);
		this.#origins = problem.lines.map((_, line) => lineOrigin(problem, line));
		this.#shares = this.#origins.map(({ stay }) => stay.slice());
		this.#meets = problem.lines.map(() => null);
		const least = (kind: 'bags' | 'trips' | 'fair') =>
			Math.min(Infinity, ...problem.wishes.flatMap((one) => (one.wish === kind ? [one.most] : [])));
		this.#most = { bags: least('bags'), trips: least('trips'), fair: least('fair') };
	}

	fits(bag: PossibleBag): boolean {
		const problem = this.#problem;
		const here = this.#toHolding[bag.holding]!;
		if (here.some((one) => one.key === bag.key || !goTogether(problem, one, bag))) return false;
		const shares = here.reduce((sum, one) => sum + one.share, bag.share);
		if (here.length > 0 && shares > 1 + leastGain) return false;
		const to = problem.holdings[bag.holding]!.room;
		const from = givingRooms(problem, bag);
		const room = problem.rooms[to]!;
		if (this.#into[to]! + from.length > Math.min(room.bagsIn, room.tanksFree)) return false;
		if (from.some((one) => this.#out[one]! + 1 > problem.rooms[one]!.bagsOut)) return false;
		for (const { source, fish } of bag.gives) {
			const left = this.#left[source]!;
			if (fish.males > left.males || fish.females > left.females || fish.unsexed > left.unsexed) return false;
		}
		if (this.#count + from.length > this.#most.bags) return false;
		if (this.#pairs.size + this.#newPairs(bag).length > this.#most.trips) return false;
		return this.#isFair(to, from);
	}

	#isFair(to: number, from: readonly number[]): boolean {
		if (this.#most.fair === Infinity) return true;
		const stays = (room: number, out: number, into: number) => {
			const { balance } = this.#problem.rooms[room]!;
			const [least, most] = fairLimits(balance, this.#most.fair);
			const after = balance + this.#out[room]! + out - this.#into[room]! - into;
			return after >= least && after <= most;
		};
		return stays(to, 0, from.length) && from.every((room) => stays(room, 1, 0));
	}

	#newPairs(bag: PossibleBag): number[] {
		const to = this.#problem.holdings[bag.holding]!.room;
		return givingRooms(this.#problem, bag)
			.filter((from) => this.#problem.tripCost[from]![to]! > 0)
			.map((from) => roomPair(this.#problem, from, to))
			.filter((pair) => !this.#pairs.has(pair));
	}

	/** What a bag changes beside its own part: trips, kinship of the line, holders, the waiting list, wishes. */
	changeBeside(bag: PossibleBag): number {
		const problem = this.#problem;
		const { weights, rooms } = problem;
		let change = 0;
		for (const pair of this.#newPairs(bag))
			change += weights.trip * problem.tripCost[Math.floor(pair / rooms.length)]![pair % rooms.length]!;
		const holding = problem.holdings[bag.holding]!;
		const isFirst = this.#toHolding[bag.holding]!.length === 0;
		if (isEmpty(holding)) {
			const line = problem.lines[bag.line]!;
			const holders = line.holders + newHolders(problem, this.bags, bag.line);
			if (holders < line.wantedHolders) change -= weights.holder;
			for (const wish of problem.wishes)
				if (wish.wish === 'holders' && wish.line === bag.line && holders < wish.least) change -= wishWorth;
		}
		if (isFirst && holding.waiting >= 0) change -= weights.waiting * waitingFactor(holding.waiting);
		for (const wish of problem.wishes) {
			if (wish.wish === 'bag' && wish.key === bag.key) change -= wishWorth;
			if (wish.wish === 'newBlood' && wish.holding === bag.holding && isFirst) change -= wishWorth;
		}
		return weights.lambda === 0 ? change : change + this.#kinshipChange(bag);
	}

	#kinshipChange(bag: PossibleBag): number {
		const origin = this.#origins[bag.line]!;
		const meets = (this.#meets[bag.line] ??= meeting(origin, this.#shares[bag.line]!));
		const { places, amounts, stayLess } = originChange(this.#problem, origin, bag);
		let change = 0;
		for (const [i, place] of places.entries()) change += 2 * amounts[i]! * meets[place]!;
		for (let i = 0; stayLess > 0 && i < meets.length; i++)
			change -= 2 * stayLess * origin.stay[i]! * meets[i]!;
		return this.#problem.weights.lambda * origin.holdings.length * change;
	}

	add(bag: PossibleBag): void {
		const problem = this.#problem;
		for (const pair of this.#newPairs(bag)) this.#pairs.add(pair);
		const to = problem.holdings[bag.holding]!.room;
		for (const from of givingRooms(problem, bag)) {
			this.#out[from]!++;
			this.#into[to]!++;
			this.#count++;
		}
		for (const { source, fish } of bag.gives) {
			const left = this.#left[source]!;
			left.males -= fish.males;
			left.females -= fish.females;
			left.unsexed -= fish.unsexed;
		}
		const origin = this.#origins[bag.line]!;
		const shares = this.#shares[bag.line]!;
		const { places, amounts, stayLess } = originChange(problem, origin, bag);
		for (const [i, place] of places.entries()) shares[place]! += amounts[i]!;
		if (stayLess > 0) for (let i = 0; i < shares.length; i++) shares[i]! -= stayLess * origin.stay[i]!;
		this.#meets[bag.line] = null;
		this.#toHolding[bag.holding]!.push(bag);
		this.bags.push(bag);
	}
}

function meeting({ kinship }: LineOrigin, shares: Float64Array): Float64Array {
	return Float64Array.from(shares, (_, i) => {
		const row = kinship[i]!;
		let sum = 0;
		for (let j = 0; j < shares.length; j++) sum += row[j]! * shares[j]!;
		return sum;
	});
}
