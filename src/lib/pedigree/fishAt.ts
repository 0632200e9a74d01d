import { countNow } from '#records/countNow.ts';
import type { CountStatement, Fish, Group } from '#records/state.ts';

/**
 * Fish at a time: how many males, females and not sexed did the group have then, as far as was said?
 *
 * The last count that had ended by then, with the changes after it that had ended by then, put together as the number
 * of now is; before any count, the first one. Never below 0.
 *
 * @param at ms since 1970
 * @returns null when nobody ever counted
 */
export function fishAt(group: Pick<Group, 'counts' | 'changes'>, at: number): Fish | null {
	const counts = group.counts.filter((count) => count.when.last <= at);
	if (counts.length === 0) return firstOf(group.counts)?.fish ?? null;
	return countNow(
		counts,
		group.changes.filter((change) => change.when.last <= at)
	).fish;
}

function firstOf(counts: readonly CountStatement[]): CountStatement | null {
	let first: CountStatement | null = null;
	for (const count of counts)
		if (
			!first ||
			count.when.last < first.when.last ||
			(count.when.last === first.when.last && count.entry < first.entry)
		)
			first = count;
	return first;
}
