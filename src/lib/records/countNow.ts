/**
 * The number of fish that stands in a group (SPEC R40 to R44).
 *
 * The count with the latest last possible moment stands, among equals the one of highest place. A change is added when
 * its first possible moment is after that moment; every other change is in the count already, "order not clear" where
 * the two overlap. No figure goes below 0. Fish whose sex was not told are taken from the unsexed first.
 */
import { addFish, howManyFish, noFish } from './fishCount.ts';
import type { CountChange, CountNow, CountStatement, Fish } from './state.ts';

/**
 * @param counts in the order of their places
 * @param changes in any order
 */
export function countNow(counts: readonly CountStatement[], changes: readonly CountChange[]): CountNow {
	let base: CountStatement | null = null;
	for (const count of counts) if (base === null || count.when.last >= base.when.last) base = count;
	const added: string[] = [];
	const orderNotClear: string[] = [];
	let fish = base?.fish ?? noFish;
	for (const change of changes) {
		if (base !== null && change.entry === base.entry) continue;
		if (base === null || change.when.first > base.when.last) {
			fish = addFish(fish, change.fish);
			added.push(change.entry);
		} else if (change.when.last >= base.when.first) orderNotClear.push(change.entry);
	}
	const level = levelled(fish);
	return {
		fish: level.fish,
		certainty: base?.certainty ?? 'not known',
		base,
		added,
		orderNotClear,
		// Without any count nobody said how many there were: fewer than none is then no contradiction.
		belowZero: base !== null && level.short
	};
}

/** Makes up a missing male or female from the unsexed, then from the other sex; what is still short is told. */
function levelled(fish: Fish): { fish: Fish; short: boolean } {
	let { males, females, unsexed } = fish;
	if (males < 0) [males, unsexed] = [0, unsexed + males];
	if (females < 0) [females, unsexed] = [0, unsexed + females];
	if (unsexed < 0) {
		const fromMales = Math.min(males, -unsexed);
		[males, unsexed] = [males - fromMales, unsexed + fromMales];
		const fromFemales = Math.min(females, -unsexed);
		[females, unsexed] = [females - fromFemales, unsexed + fromFemales];
	}
	const short = howManyFish(fish) < 0;
	return { fish: { males, females, unsexed: Math.max(0, unsexed) }, short };
}
