import type { ThingId } from '#records/entry.ts';
import type { Names } from '#records/kind.ts';
import { namesOf } from '#records/names.ts';
import type {
	BagStage,
	ClubState,
	CountChange,
	CountStatement,
	Group,
	LineDefinition,
	Said,
	Stage
} from '#records/state.ts';
import { crossedGroups } from '../lines/crossedGroups.ts';
import { isStanding } from '../lines/holdings.ts';
import { partIn, type Part } from '../people/partIn.ts';
import { saidBy, saidByWords } from '../people/saidBy.ts';
import type { Asking } from '../question.ts';
import { expectedStages, type ExpectedStage } from '../spawns/expectedStages.ts';
import { nextStages } from '../spawns/nextStages.ts';
import { forCross } from './forCross.ts';
import { groupRow, type GroupRow } from './groupRow.ts';

type Named<Statement> = Statement & { readonly name: string };

export interface GroupPage extends GroupRow {
	readonly known: boolean;
	readonly givenName: string;
	readonly movement: LineDefinition['movement'];
	readonly counts: readonly Named<CountStatement>[];
	/** `otherName`: the group that the fish came from or went to; '' = none. */
	readonly changes: readonly Named<CountChange & { readonly otherName: string }>[];
	/** Other groups of the line in the room, or of the line that they came to be crossed with: its fish may be put to. */
	readonly neighbours: readonly GroupRow[];
	/** Changes whose time overlaps the count that stands: taken as already in it. */
	readonly orderNotClear: readonly string[];
	readonly stages: readonly Named<Said & { readonly stage: Stage }>[];
	/** The likeliest next stage first. */
	readonly next: readonly Stage[];
	readonly expected: readonly ExpectedStage[];
	readonly closedSaid: Named<NonNullable<Group['closed']>> | null;
	readonly roomClosed: boolean;
	/** For whom an officer decides when the keeper said it by phone. */
	readonly keeper: { readonly id: string; readonly name: string } | null;
	/** The room's private document. */
	readonly roomEpoch: string;
	readonly quarantine: Group['quarantine'];
	readonly spareSaid: Group['spare'];
	readonly eggBag: Group['eggBag'];
	readonly mixesSaid: readonly Named<Said & { readonly what: string }>[];
	/** The spawn that these are the young of. */
	readonly bornIn: ThingId | null;
	readonly spawns: readonly {
		readonly id: ThingId;
		readonly sort: 'spawn' | 'drop';
		readonly seen: Said | null;
		readonly brood: GroupRow | null;
	}[];
	readonly bags: readonly {
		readonly id: ThingId;
		readonly number: string;
		readonly stage: BagStage;
		readonly to: string;
	}[];
	/** Entries about it that do not count. */
	readonly leftOut: number;
	/** These fish came to be crossed with this line on purpose; '' = they did not. */
	readonly crossWith: string;
	/** They are not surely of their line alone; null = they are, as far as the record knows. */
	readonly crossed: { readonly with: string; readonly sure: boolean; readonly since: string } | null;
	readonly part: Part;
}

/** Group page: how many are there, how sure is that, and what has become of them? */
export function groupPage(
	state: ClubState,
	args: { readonly group: ThingId },
	asking: Asking
): GroupPage | null {
	const group = state.groups.get(args.group);
	if (!group) return null;
	const names = namesOf(state, null);
	const row = groupRow(state, group, names, asking.now);
	const named = <Statement extends Said>(said: Statement): Named<Statement> => ({
		...said,
		name: saidByWords(saidBy(said, names))
	});
	const fishGroup = row.line?.fishGroup ?? 'other';
	const outcross = forCross(state, group);
	const crossed = group.line ? crossedGroups(state, group.line).get(group.id) : undefined;
	const isBrood = group.origin.from === 'brood';
	return {
		...row,
		known: group.known,
		givenName: group.name,
		movement: (group.line ? state.lines.get(group.line)?.movement : undefined) ?? 'none',
		counts: group.counts.toSorted(newestFirst).map(named),
		changes: group.changes
			.toSorted(newestFirst)
			.map((change) => ({ ...named(change), otherName: change.other ? names.group(change.other) : '' })),
		neighbours: [...new Set(state.groups.values())]
			.filter(
				(other) =>
					other !== group &&
					group.room !== null &&
					other.room === group.room &&
					(other.line === group.line || (outcross !== null && other.line === outcross)) &&
					isStanding(other)
			)
			.map((other) => groupRow(state, other, names, asking.now)),
		orderNotClear: group.now.orderNotClear,
		stages: group.stages.map(named),
		next: group.ended ? [] : nextStages(fishGroup, group.stage),
		expected: isBrood && !group.ended ? expectedStages(fishGroup, group.stages) : [],
		closedSaid: group.closed ? named(group.closed) : null,
		roomClosed: (group.room ? state.rooms.get(group.room)?.closed : null) != null,
		keeper: keeperOf(state, group, names),
		roomEpoch: (group.room ? state.rooms.get(group.room)?.epoch : undefined) ?? '',
		quarantine: row.quarantineUntil ? group.quarantine : null,
		spareSaid: group.spare,
		eggBag: group.eggBag,
		mixesSaid: group.mixes.map((mix) => ({ ...named(mix), what: mix.what || mix.sort })),
		bornIn: group.origin.from === 'brood' ? group.origin.spawn : null,
		spawns: group.spawns
			.flatMap((id) => state.spawns.get(id) ?? [])
			.map((spawn) => {
				const brood = spawn.brood ? state.groups.get(spawn.brood) : undefined;
				return {
					id: spawn.id,
					sort: spawn.sort,
					seen: spawn.seen,
					brood: brood ? groupRow(state, brood, names, asking.now) : null
				};
			})
			.reverse(),
		bags: [...new Set(group.bags.flatMap((id) => state.bags.get(id) ?? []))].map((bag) => ({
			id: bag.id,
			number: bag.number,
			stage: bag.stage,
			to:
				bag.to?.to === 'room'
					? names.room(bag.to.room)
					: bag.to && 'name' in bag.to
						? bag.to.name
						: 'not said yet'
		})),
		leftOut: group.leftOut.length,
		crossWith: outcross ? names.line(outcross) : '',
		crossed: crossed
			? {
					with: crossed.with.map((line) => names.line(line)).join(' and '),
					sure: crossed.sure,
					since: new Date(crossed.since).toISOString().slice(0, 10)
				}
			: null,
		part: partIn(state, asking.me, group.room, group.line)
	};
}

function keeperOf(state: ClubState, group: Group, names: Names): GroupPage['keeper'] {
	const id = group.room ? state.rooms.get(group.room)?.keepers[0] : undefined;
	return id ? { id, name: names.member(id) } : null;
}

function newestFirst(a: Said, b: Said): number {
	return b.when.last - a.when.last || (a.entry < b.entry ? 1 : -1);
}
