import type { ThingId } from '#records/entry.ts';
import type { ClubState, Group } from '#records/state.ts';

/**
 * For cross: with which line are these fish to be crossed on purpose, by the exchange that they came by? Null = none.
 *
 * They are fish of their own line, but no holding of it: a few males in another line's room carry nothing on.
 */
export function forCross(state: ClubState, group: Group): ThingId | null {
	const seen = new Set<Group>();
	for (let one: Group | undefined = group; one && !seen.has(one);) {
		seen.add(one);
		const { origin }: Group = one;
		if (origin.from === 'bag') {
			const exchange = state.exchanges.get(state.bags.get(origin.bag)?.exchange ?? '');
			return exchange?.outcross && exchange.line === group.line ? exchange.outcross : null;
		}
		one = origin.from === 'group' ? state.groups.get(origin.groups[0] ?? '') : undefined;
	}
	return null;
}
