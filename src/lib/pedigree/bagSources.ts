import type { ThingId } from '#records/entry.ts';
import { howManyFish, noFish } from '#records/fishCount.ts';
import type { Bag, ClubState, Fish, Group } from '#records/state.ts';
import { shoal } from './eventList.ts';
import { fishAt } from './fishAt.ts';

export interface BagSource {
	readonly group: ThingId;
	/** Fish of this group in the bag; none = nobody said how many. */
	readonly fish: Fish;
}
export interface BagSources {
	readonly said: readonly BagSource[];
	/** Where the contents were not said: groups of the giver that it may have been, the largest first. */
	readonly possible: readonly ThingId[];
}

/**
 * Bag sources: from which groups did the fish of a bag come, as said, or from which may they have come?
 *
 * Where nobody said, any group of the line that the giving room had when the bag was packed may be the source.
 *
 * @param groups those of the line, each once
 * @param arrived the group that the fish became
 */
export function bagSources(
	state: ClubState,
	bag: Bag,
	groups: readonly Group[],
	arrived: ThingId
): BagSources {
	const said = new Map<ThingId, Fish>();
	for (const content of bag.contents) {
		if (!content.group) continue;
		const id = state.groups.get(content.group)?.id ?? content.group;
		if (id !== arrived && !said.has(id)) said.set(id, content.fish);
	}
	if (said.size || !bag.fromRoom)
		return { said: [...said].map(([group, fish]) => ({ group, fish })), possible: [] };
	const at = bag.baggedAt?.last ?? Infinity;
	const possible = groups
		.filter((group) => group.id !== arrived && group.room === bag.fromRoom)
		.filter((group) => (group.started?.when.first ?? 0) <= at && group.origin.from !== 'not known')
		.map((group) => ({ id: group.id, fish: howManyFish(fishAt(group, at) ?? shoal) }))
		.sort((a, b) => b.fish - a.fish || (a.id < b.id ? -1 : 1));
	return { said: [], possible: possible.map(({ id }) => id) };
}

/** Shares out whole fish by weight, what is left over to the largest remainders, then to the first. */
export function sharedOut(count: number, weights: readonly number[]): number[] {
	const total = weights.reduce((sum, weight) => sum + weight, 0);
	const exact = weights.map((weight) => (total > 0 ? (count * weight) / total : count / weights.length));
	const shares = exact.map(Math.floor);
	const left = count - shares.reduce((sum, share) => sum + share, 0);
	const order = exact.map((_, i) => i);
	order.sort((a, b) => exact[b]! - shares[b]! - (exact[a]! - shares[a]!) || a - b);
	for (const i of order.slice(0, left)) shares[i]!++;
	return shares;
}

/** Fish of one sex in what a source gave; where nobody said how many, each source counts the same. */
export function weightsOf(sources: readonly BagSource[], sex: keyof Fish): number[] {
	const bySex = sources.map(({ fish }) => fish[sex]);
	if (bySex.some((count) => count > 0)) return bySex;
	const all = sources.map(({ fish }) => howManyFish(fish ?? noFish));
	return all.every((count) => count > 0) ? all : sources.map(() => 1);
}
