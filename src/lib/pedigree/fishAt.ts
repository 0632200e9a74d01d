import { addFish, noFish } from '#records/fishCount.ts';
import type { CountStatement, Fish, Group } from '#records/state.ts';

/**
 * Fish at a time: how many males, females and not sexed did the group have then, as far as was said?
 *
 * The last count that had ended by then, with the changes after it that had ended by then; before any count, the first
 * one. Never below 0.
 *
 * @param at ms since 1970
 * @returns null when nobody ever counted
 */
export function fishAt(group: Group, at: number): Fish | null {
	let base: CountStatement | null = null;
	for (const count of group.counts) {
		const later =
			!base ||
			count.when.last > base.when.last ||
			(count.when.last === base.when.last && count.entry > base.entry);
		if (count.when.last <= at && later) base = count;
	}
	if (!base) {
		for (const count of group.counts)
			if (
				!base ||
				count.when.last < base.when.last ||
				(count.when.last === base.when.last && count.entry < base.entry)
			)
				base = count;
		return base?.fish ?? null;
	}
	let fish = base.fish;
	for (const change of group.changes)
		if (change.when.first > base.when.last && change.when.last <= at) fish = addFish(fish, change.fish);
	const { males, females, unsexed } = addFish(fish, noFish);
	return { males: Math.max(0, males), females: Math.max(0, females), unsexed: Math.max(0, unsexed) };
}
