import { kinshipOfPairs, meanKinshipOfAll, type Breeders, type Broods } from './broods.ts';
import type { Chance } from './chance.ts';
import { pairUp } from './pairUp.ts';

/**
 * The next breeders and their pairs chosen together: which broods, which donors, who with whom. The best of several
 * searches from different starts.
 *
 * Makes (mean kinship of all breeders, a fish with itself included) + lambda x (mean kinship of the pairs) small:
 * one breeder at a time is taken from a better brood until none is better, pairs are matched anew, and so on. The
 * first male of each room comes from another room. A local search: no proof that nothing better exists.
 *
 * @param starts breeders to begin with, at least one choice
 * @param exchanging whether the first male of each room comes from elsewhere
 */
export function chooseTogether(
	broods: Broods,
	starts: readonly Breeders[],
	lambda: number,
	exchanging: boolean,
	chance: Chance
): Chosen {
	let best: (Chosen & { value: number }) | undefined;
	for (const start of starts) {
		const found = improve(broods, start, lambda, exchanging, chance);
		if (!best || found.value < best.value) best = found;
	}
	if (!best) throw new RangeError('at least one start');
	return best;
}

interface Chosen {
	readonly breeders: Breeders;
	readonly mates: Int32Array;
}

function improve(
	broods: Broods,
	start: Breeders,
	lambda: number,
	exchanging: boolean,
	chance: Chance
): Chosen & { value: number } {
	const { rooms, pairs, between, inbreeding } = broods;
	const count = rooms * pairs;
	const breeders = Int32Array.from(start);
	/** For every brood: the sum of its kinships with all breeders. */
	const withAll = new Float64Array(count);
	for (const brood of breeders) for (let b = 0; b < count; b++) withAll[b]! += between[b * count + brood]!;
	/** What a fish with itself adds above a brother of it. */
	const itself = (b: number) => (1 + inbreeding[b]!) / 2 - between[b * count + b]!;
	const perPair = lambda / count;
	const perTwo = 1 / breeders.length ** 2;

	const improveOne = (slot: number, mate: number): boolean => {
		const room = Math.floor(slot / (2 * pairs));
		const comesIn = exchanging && slot === room * 2 * pairs;
		const now = breeders[slot]!;
		const other = breeders[mate]!;
		let best = now;
		let gain = -1e-12;
		for (let b = 0; b < count; b++) {
			if ((Math.floor(b / pairs) === room) === comesIn || b === now) continue;
			const all =
				2 * (withAll[b]! - withAll[now]!) +
				between[now * count + now]! +
				between[b * count + b]! -
				2 * between[now * count + b]! +
				itself(b) -
				itself(now);
			const change = perTwo * all + perPair * (between[b * count + other]! - between[now * count + other]!);
			if (change < gain) {
				gain = change;
				best = b;
			}
		}
		if (best === now) return false;
		breeders[slot] = best;
		for (let b = 0; b < count; b++) withAll[b]! += between[b * count + best]! - between[b * count + now]!;
		return true;
	};

	let mates = pairUp('leastRelatedInOrder', broods, breeders, chance);
	for (;;) {
		let better = false;
		for (const j of chance.order(count)) {
			const first = Math.floor(j / pairs) * 2 * pairs;
			const female = first + pairs + (j % pairs);
			const male = first + mates[j]!;
			if (improveOne(male, female)) better = true;
			if (improveOne(female, male)) better = true;
		}
		if (!better) break;
		mates = pairUp('leastRelatedInOrder', broods, breeders, chance);
	}
	const value = meanKinshipOfAll(broods, breeders) + lambda * kinshipOfPairs(broods, breeders, mates);
	return { breeders, mates, value };
}
