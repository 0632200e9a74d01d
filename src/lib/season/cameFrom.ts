import type { ThingId } from '#records/entry.ts';
import type { ClubState, Group } from '#records/state.ts';

/** The room that these fish, or the group that they were taken from, came from last by a bag; null = none. */
export function cameFrom(state: ClubState, group: Group): ThingId | null {
	const seen = new Set<Group>();
	for (let one: Group | undefined = group; one && !seen.has(one);) {
		seen.add(one);
		const { origin }: Group = one;
		if (origin.from === 'bag') return state.bags.get(origin.bag)?.fromRoom ?? null;
		one = origin.from === 'group' ? state.groups.get(origin.groups[0] ?? '') : undefined;
	}
	return null;
}
