/**
 * Groups that are one because two people told of one arrival (SPEC R54): each bag with several arrivals in one room
 * claims that their groups are one. Claims of several bags may meet in a group; the first told stands for all.
 */
import type { EntryId, ThingId } from './entry.ts';
import type { Bag } from './state.ts';

interface Claim {
	/** Rank of the arrival that told of the group. */
	readonly rank: string;
	readonly groups: readonly ThingId[];
}

export class JoinedGroups {
	/** Group -> bag -> what the bag claims of the group. */
	readonly #claims = new Map<ThingId, Map<ThingId, Claim>>();

	/** All ids that are one group with this one, the one that stands for all first, the rest sorted. */
	together(group: ThingId): readonly ThingId[] {
		if (!this.#claims.has(group)) return [group];
		const found = new Set([group]);
		for (const one of found)
			for (const claim of this.#claims.get(one)?.values() ?? [])
				for (const other of claim.groups) found.add(other);
		const rank = (one: ThingId) =>
			[...(this.#claims.get(one)?.values() ?? [])].map((claim) => claim.rank).sort()[0] ?? '';
		const ids = [...found].sort();
		const first = ids.reduce((best, one) => (rank(one) < rank(best) ? one : best));
		return [first, ...ids.filter((one) => one !== first)];
	}

	/** Takes in what a bag claims; returns the groups that may stand differently now. */
	claim(bag: Bag, rankOf: (entry: EntryId) => string): ThingId[] {
		const touched: ThingId[] = [];
		for (const groups of groupsByRoom(bag)) {
			for (const group of groups) {
				const arrival = bag.arrivals.find((one) => one.group === group);
				const byBag = this.#claims.get(group) ?? new Map<ThingId, Claim>();
				const before = byBag.get(bag.id)?.groups ?? [];
				byBag.set(bag.id, {
					rank: rankOf(arrival?.entry ?? ''),
					groups: [...new Set([...before, ...groups])].sort()
				});
				this.#claims.set(group, byBag);
			}
			touched.push(...this.together(groups[0] ?? ''));
		}
		return touched;
	}

	/** Takes back what a bag claimed; returns the groups that may stand differently now. */
	release(bag: Bag): ThingId[] {
		if (bag.arrivals.length < 2) return [];
		const touched = bag.arrivals.flatMap((arrival) => this.together(arrival.group));
		for (const { group } of bag.arrivals) {
			const byBag = this.#claims.get(group);
			if (byBag?.delete(bag.id) && byBag.size === 0) this.#claims.delete(group);
		}
		return touched;
	}
}

/** Rooms in which a bag arrived as more than one group: those groups, each once. */
function groupsByRoom(bag: Bag): ThingId[][] {
	if (bag.arrivals.length < 2) return [];
	const byRoom = new Map<ThingId, Set<ThingId>>();
	for (const { room, group } of bag.arrivals) byRoom.set(room, (byRoom.get(room) ?? new Set()).add(group));
	return [...byRoom.values()].filter((groups) => groups.size > 1).map((groups) => [...groups]);
}
