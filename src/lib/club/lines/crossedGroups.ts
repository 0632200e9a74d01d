import { parentsOfBrood } from '#pedigree/parentsOfBrood.ts';
import type { ThingId } from '#records/entry.ts';
import { howManyFish } from '#records/fishCount.ts';
import type { ClubState, Group, ParentSet } from '#records/state.ts';
import { forCross } from '../groups/forCross.ts';

export interface Crossed {
	/** The other lines, in order of their ids. */
	readonly with: readonly ThingId[];
	/** From when these fish are not surely of their own line alone, ms since 1970. */
	readonly since: number;
	/** False where that is only possible: a parent is one of several. */
	readonly sure: boolean;
	/** It came by an exchange that said so beforehand. */
	readonly onPurpose: boolean;
}
interface Part {
	readonly group: ThingId;
	readonly at: number;
	readonly sure: boolean;
}

/**
 * Crossed groups: which groups of a line have fish of another line in them or among their forebears, and since when?
 *
 * Followed through broods, bags, splits, groups put together and fish moved later; what came of a group before others
 * were put to it is not touched. Nothing is written for it: it follows from who was put with whom, and a correction of
 * that takes it back. Mark from that date: common practice, no source.
 *
 * @returns by id; groups of the line alone are not in it
 */
export function crossedGroups(state: ClubState, line: ThingId): ReadonlyMap<ThingId, Crossed> {
	const done = new Map<Group, Crossed | null>();
	const found = new Map<ThingId, Crossed>();
	for (const group of new Set(state.groups.values())) {
		const crossed = group.line === line ? of(group) : null;
		if (crossed) found.set(group.id, crossed);
	}
	return found;

	function of(group: Group): Crossed | null {
		const known = done.get(group);
		if (known !== undefined) return known;
		// A circle of origins ends here.
		done.set(group, null);
		const parts = partsOf(state, group).flatMap(({ group: id, at, sure }): Crossed[] => {
			const other = state.groups.get(id);
			if (!other || other === group || !other.line) return [];
			if (other.line !== line)
				return [{ with: [other.line], since: at, sure, onPurpose: forCross(state, other) === line }];
			const before = of(other);
			return before && before.since <= at ? [{ ...before, since: at, sure: sure && before.sure }] : [];
		});
		const crossed = parts.length ? together(parts) : null;
		done.set(group, crossed);
		return crossed;
	}
}

function together(parts: readonly Crossed[]): Crossed {
	return {
		with: [...new Set(parts.flatMap((part) => part.with))].sort(),
		since: Math.min(...parts.map(({ since }) => since)),
		sure: parts.some(({ sure }) => sure),
		onPurpose: parts.every(({ onPurpose }) => onPurpose)
	};
}

/** Groups that a group's fish are of, each with when they became so. */
function partsOf(state: ClubState, group: Group): Part[] {
	const { origin } = group;
	const began = group.started?.when.first ?? 0;
	const moved = group.changes.flatMap(({ other, fish, when, why }): Part[] =>
		other && why === 'moved' && howManyFish(fish) > 0 ? [{ group: other, at: when.first, sure: true }] : []
	);
	if (origin.from === 'group')
		return [...moved, ...origin.groups.map((id) => ({ group: id, at: began, sure: true }))];
	if (origin.from === 'bag') {
		const contents = state.bags.get(origin.bag)?.contents ?? [];
		return [
			...moved,
			...contents.flatMap((one) => (one.group ? [{ group: one.group, at: began, sure: true }] : []))
		];
	}
	const spawn = origin.from === 'brood' ? state.spawns.get(origin.spawn) : undefined;
	if (!spawn?.seen) return moved;
	const at = spawn.seen.when.first;
	const { mothers, fathers } = parentsOfBrood(state, spawn, group.id);
	return [...moved, ...parentsIn(mothers, at), ...parentsIn(fathers, at)];
}

function parentsIn(set: ParentSet, at: number): Part[] {
	const there = set.of.filter(({ standing }) => standing !== 'ruled out');
	const isOnly = there.length === 1 && !set.others;
	return there.map(({ group, standing }) => ({ group, at, sure: standing === 'seen' || isOnly }));
}
