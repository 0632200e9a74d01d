import type { ThingId } from '#records/entry.ts';
import { namesOf } from '#records/names.ts';
import type { ClubState, ParentSet, Said, Standing } from '#records/state.ts';
import { groupRow, type GroupRow } from '../groups/groupRow.ts';
import { partIn, type Part } from '../people/partIn.ts';
import type { Asking } from '../question.ts';
import { broodClock } from './broodClock.ts';
import { expectedStages, type ExpectedStage } from './expectedStages.ts';
import { otherGroupsOf, possibleParents, type PossibleParents } from './possibleParents.ts';

export interface NamedParents {
	readonly of: readonly {
		readonly group: ThingId;
		readonly name: string;
		readonly tank: string;
		readonly standing: Standing;
	}[];
	readonly others: boolean;
	readonly number: ParentSet['number'];
}
export interface SpawnPage {
	readonly id: ThingId;
	readonly known: boolean;
	readonly sort: 'spawn' | 'drop';
	readonly line: { readonly id: ThingId; readonly name: string; readonly code: string } | null;
	readonly room: { readonly id: ThingId; readonly name: string } | null;
	readonly inGroup: GroupRow | null;
	readonly brood: GroupRow | null;
	readonly seen: (Said & { readonly name: string }) | null;
	readonly mothers: NamedParents;
	readonly fathers: NamedParents;
	/** When and by whom the parents were set anew; null = as first told. */
	readonly parentsSaid: (Said & { readonly name: string }) | null;
	readonly expected: readonly ExpectedStage[];
	/** "You could breed from these from …": ms since 1970; null = no figure. */
	readonly breedsFrom: number | null;
	/** For setting the parents anew: what the record makes of it now. */
	readonly possible: PossibleParents | null;
	readonly otherGroups: readonly GroupRow[];
	readonly part: Part;
	readonly disputed: boolean;
	readonly twoVersions: boolean;
}

/** Spawn page: what was seen, who may the parents be, and what is to be expected of the brood? */
export function spawnPage(
	state: ClubState,
	args: { readonly spawn: ThingId },
	asking: Asking
): SpawnPage | null {
	const spawn = state.spawns.get(args.spawn);
	if (!spawn) return null;
	const names = namesOf(state, null);
	const line = spawn.line ? state.lines.get(spawn.line) : undefined;
	const brood = spawn.brood ? state.groups.get(spawn.brood) : undefined;
	const inGroup = spawn.inGroup ? state.groups.get(spawn.inGroup) : undefined;
	const clock = broodClock[line?.fishGroup ?? 'other'];
	const born = spawn.seen?.when.first ?? null;
	const possible =
		spawn.inGroup && spawn.room
			? possibleParents(state, {
					room: spawn.room,
					group: spawn.inGroup,
					at: spawn.seen?.when.last ?? asking.now
				})
			: null;
	const named = (parents: ParentSet): NamedParents => ({
		of: parents.of.map((parent) => ({
			...parent,
			name: names.group(parent.group),
			tank: state.groups.get(parent.group)?.tank ?? ''
		})),
		others: parents.others,
		number: parents.number
	});
	const listed = [...(possible?.fathers ?? []), ...spawn.fathers.of, ...spawn.mothers.of].map(
		(each) => each.group
	);
	return {
		id: spawn.id,
		known: spawn.known,
		sort: spawn.sort,
		line: line ? { id: line.id, name: names.line(line.id), code: line.code } : null,
		room: spawn.room ? { id: spawn.room, name: names.room(spawn.room) } : null,
		inGroup: inGroup ? groupRow(state, inGroup, names, asking.now) : null,
		brood: brood ? groupRow(state, brood, names, asking.now) : null,
		seen: spawn.seen ? { ...spawn.seen, name: names.member(spawn.seen.by) } : null,
		mothers: named(spawn.mothers),
		fathers: named(spawn.fathers),
		parentsSaid:
			spawn.parentsSaid && spawn.parentsSaid.entry !== spawn.seen?.entry
				? { ...spawn.parentsSaid, name: names.member(spawn.parentsSaid.by) }
				: null,
		expected: brood && !brood.ended ? expectedStages(line?.fishGroup ?? 'other', brood.stages) : [],
		breedsFrom: born !== null && clock.breedsFromDays > 0 ? born + clock.breedsFromDays * 86_400_000 : null,
		possible,
		otherGroups: spawn.room
			? otherGroupsOf(state, spawn.room, spawn.line, [...listed, ...(spawn.brood ? [spawn.brood] : [])]).map(
					(group) => groupRow(state, group, names, asking.now)
				)
			: [],
		part: partIn(state, asking.me, spawn.room, spawn.line),
		disputed: spawn.disputes.some((dispute) => !dispute.decided),
		twoVersions: spawn.twoVersions.length > 0
	};
}
