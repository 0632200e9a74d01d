import type { ThingId } from '#records/entry.ts';
import { howManyFish } from '#records/fishCount.ts';
import type { Bag, ClubState, Group } from '#records/state.ts';
import type { FamilyMove } from './family.ts';

/**
 * Family moves: from which groups did fish come to this one, and how?
 *
 * @param mayBeFrom groups that a bag of unsaid contents may have been filled from
 */
export function familyMoves(
	state: ClubState,
	group: Group,
	mayBeFrom: (bag: Bag) => readonly ThingId[]
): FamilyMove[] {
	const real = (id: ThingId) => state.groups.get(id)?.id ?? id;
	const moves: FamilyMove[] = [];
	const { origin } = group;
	const at = group.started?.when.first ?? null;
	if (origin.from === 'bag') {
		const bag = state.bags.get(origin.bag);
		if (bag) moves.push(...bagMoves(bag, group, mayBeFrom));
	}
	if (origin.from === 'group') {
		const sources = [...new Set(origin.groups.map(real))].filter((from) => from !== group.id);
		for (const from of sources) {
			const kind = sources.length > 1 ? 'merge' : 'split';
			const fish = sources.length > 1 ? null : (group.counts[0]?.fish ?? null);
			moves.push({
				...{ kind, from, to: group.id, at, bag: null, bagNumber: '', fish, certain: true }
			} as FamilyMove);
		}
	}
	for (const change of group.changes) {
		const from = change.other === null ? null : real(change.other);
		if (change.why !== 'moved' || from === null || from === group.id || howManyFish(change.fish) <= 0)
			continue;
		// What a group began with is told by its origin.
		if (origin.from === 'group' && change.entry === group.started?.entry) continue;
		const told = { kind: 'moved' as const, from, to: group.id, at: change.when.first };
		moves.push({ ...told, bag: null, bagNumber: '', fish: change.fish, certain: true });
	}
	return moves;

	function bagMoves(bag: Bag, to: Group, mayBe: typeof mayBeFrom): FamilyMove[] {
		const told = { kind: 'bag' as const, to: to.id, bag: bag.id, bagNumber: bag.number };
		const when = bag.baggedAt?.first ?? at;
		const said = bag.contents.flatMap(({ group: from, fish }) =>
			from && real(from) !== to.id
				? [{ ...told, from: real(from), at: when, fish: howManyFish(fish) ? fish : null, certain: true }]
				: []
		);
		if (said.length) return said;
		return mayBe(bag).map((from) => ({ ...told, from, at: when, fish: null, certain: false }));
	}
}
