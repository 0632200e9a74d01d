import type { ThingId } from '#records/entry.ts';
import { howManyFish } from '#records/fishCount.ts';
import { namesOf } from '#records/names.ts';
import type { ClubState } from '#records/state.ts';
import { groupRow, type GroupRow } from '../groups/groupRow.ts';
import { isStanding } from '../lines/holdings.ts';
import type { Asking } from '../question.ts';
import { broodClock } from './broodClock.ts';
import { otherGroupsOf, possibleParents, type PossibleParents } from './possibleParents.ts';

export interface SpawnStart {
	readonly room: ThingId;
	readonly roomName: string;
	/** Groups that a spawn may be seen in, the likeliest first. */
	readonly groups: readonly GroupRow[];
	/** What is known once a group is chosen. */
	readonly chosen: {
		readonly group: GroupRow;
		readonly sort: 'spawn' | 'drop';
		readonly parents: PossibleParents;
		readonly others: readonly GroupRow[];
	} | null;
}

/**
 * Spawn start: in which group of this room may a spawn have been seen, and who may the parents be? Grown groups with
 * both sexes come first; eggs and fry cannot spawn and are left out.
 */
export function spawnStart(
	state: ClubState,
	args: { readonly room: ThingId; readonly group: ThingId | null },
	asking: Asking
): SpawnStart | null {
	const room = state.rooms.get(args.room);
	if (!room) return null;
	const names = namesOf(state, null);
	const tooYoung = new Set(['laid', 'eyed', 'hatched', 'free-swimming', 'eggs in peat']);
	const groups = [...new Set(state.groups.values())]
		.filter(
			(group) =>
				group.room === room.id && group.line !== null && isStanding(group) && !tooYoung.has(group.stage ?? '')
		)
		.map((group) => groupRow(state, group, names, asking.now))
		.sort((a, b) => likelihood(b) - likelihood(a) || a.name.localeCompare(b.name));
	const chosen = args.group ? state.groups.get(args.group) : undefined;
	if (!chosen) return { room: room.id, roomName: names.room(room.id), groups, chosen: null };
	const row = groupRow(state, chosen, names, asking.now);
	const parents = possibleParents(state, { room: room.id, group: chosen.id, at: asking.now });
	const named = [...parents.fathers, ...parents.mothers].map((each) => each.group);
	return {
		room: room.id,
		roomName: names.room(room.id),
		groups,
		chosen: {
			group: row,
			sort: broodClock[row.line?.fishGroup ?? 'other'].sort,
			parents,
			others: otherGroupsOf(state, room.id, chosen.line, named).map((group) =>
				groupRow(state, group, names, asking.now)
			)
		}
	};
}

function likelihood(row: GroupRow): number {
	if (row.fish.males > 0 && row.fish.females > 0) return 2;
	return howManyFish(row.fish) === 0 || row.fish.unsexed > 0 ? 1 : row.fish.females > 0 ? 1 : 0;
}
