import type { ThingId } from '#records/entry.ts';
import { addFish, noFish } from '#records/fishCount.ts';
import type { Names } from '#records/kind.ts';
import { namesOf } from '#records/names.ts';
import type {
	BagStage,
	Certainty,
	ClubState,
	ExchangeStage,
	Fish,
	Line,
	LineDefinition,
	LineRules,
	Said
} from '#records/state.ts';
import { groupRow, type GroupRow } from '../groups/groupRow.ts';
import { originWords } from '../groups/originWords.ts';
import { partIn, type Part } from '../people/partIn.ts';
import { saidBy, saidByWords } from '../people/saidBy.ts';
import { dayMs, type Asking } from '../question.ts';
import { crossesOf, type CrossOfLine } from './crossesOf.ts';
import { holdings, isStanding, type Holding } from './holdings.ts';
import { lineState, type LineStateSaid } from './lineState.ts';
import { rulesOf } from './rulesOf.ts';

export interface RoomOfLine extends Holding {
	readonly name: string;
	readonly region: string;
	readonly keepers: readonly { readonly id: string; readonly name: string }[];
	readonly mine: boolean;
	/** ISO 8601-2; '' = not known. */
	readonly sinceText: string;
	readonly came: string;
	/** Who confirmed it, and who typed it for them; '' = nobody. */
	readonly confirmedName: string;
	/** The last answer was "not sure": whose it was; '' = it was not. */
	readonly unsureName: string;
}
export interface LinePage extends LineDefinition {
	readonly id: ThingId;
	/** False = only mentioned so far. */
	readonly known: boolean;
	readonly opened: Said | null;
	readonly state: LineStateSaid;
	readonly rules: LineRules;
	readonly rulesAreDefaults: boolean;
	readonly standard: Line['standard'];
	readonly stateSaid: Line['stateSaid'];
	readonly rooms: readonly RoomOfLine[];
	readonly heldBefore: readonly RoomOfLine[];
	readonly fish: Fish;
	readonly certainty: Certainty | 'not known';
	readonly notCounted: number;
	readonly youngestBrood: Said | null;
	/** Rooms that hold it or lately said no, and how many of them answered within the days that a check holds. */
	readonly answered: { readonly of: number; readonly answered: number; readonly days: number };
	readonly groups: readonly GroupRow[];
	readonly bags: readonly {
		readonly id: ThingId;
		readonly number: string;
		readonly stage: BagStage;
		readonly words: string;
	}[];
	readonly exchanges: readonly {
		readonly id: ThingId;
		readonly stage: ExchangeStage;
		readonly words: string;
	}[];
	readonly people: readonly { readonly id: string; readonly name: string; readonly what: string }[];
	readonly wants: readonly { readonly room: ThingId; readonly name: string; readonly since: string }[];
	readonly mixes: readonly (Said & {
		readonly group: ThingId;
		readonly groupName: string;
		readonly what: string;
		readonly name: string;
	})[];
	/** Other lines that fish of this one were crossed with. */
	readonly crosses: readonly CrossOfLine[];
	readonly part: Part;
	readonly disputed: boolean;
	readonly twoVersions: boolean;
}

/** Line page: who holds this line, since when and from whom, and how sure is that? */
export function linePage(
	state: ClubState,
	args: { readonly line: ThingId },
	asking: Asking
): LinePage | null {
	const line = state.lines.get(args.line);
	if (!line) return null;
	const names = namesOf(state, null);
	const me = state.members.get(asking.me);
	const rules = rulesOf(line);
	const all = holdings(state, line, asking.now);
	const rows = all.map((each) => roomOf(state, each, names, me?.rooms ?? []));
	const rooms = rows.filter((each) => each.word !== 'no longer has it').sort(freshestFirst);
	const answeredBy = (each: Holding) =>
		each.lastWord !== null && asking.now - each.lastWord.when.first <= rules.confirmedDays * dayMs;
	const asked = rows.filter((each) => each.word !== 'no longer has it' || answeredBy(each));
	const { id, known, opened, standard, stateSaid, code, name, kind, fishGroup, movement } = line;
	const { taxonVerbatim, taxonTidy, localityVerbatim, localityCode, source } = line;
	const held = new Set(rooms.map((each) => each.room));
	return {
		...{ id, known, opened, standard, stateSaid, code, kind, fishGroup, movement },
		...{ taxonVerbatim, taxonTidy, localityVerbatim, localityCode, source, name: name || names.line(id) },
		state: lineState(line, all, asking.now),
		rules,
		rulesAreDefaults: line.rulesSaid === null,
		rooms,
		heldBefore: rows.filter((each) => each.word === 'no longer has it'),
		fish: rooms.reduce((sum, each) => addFish(sum, each.fish), noFish),
		certainty: together(rooms),
		notCounted: rooms.reduce((sum, each) => sum + each.notCounted, 0),
		youngestBrood: rooms.reduce<Said | null>(
			(best, each) =>
				each.youngestBrood && (!best || each.youngestBrood.when.last > best.when.last)
					? each.youngestBrood
					: best,
			null
		),
		answered: { of: asked.length, answered: asked.filter(answeredBy).length, days: rules.confirmedDays },
		groups: [...new Set(state.groups.values())]
			.filter(
				(group) => group.line === line.id && isStanding(group) && group.room !== null && held.has(group.room)
			)
			.map((group) => groupRow(state, group, names, asking.now)),
		bags: bagsOf(state, line.id, names),
		exchanges: exchangesOf(state, line.id, names),
		people: peopleOf(state, line.id, rooms),
		wants: [...state.rooms.values()].flatMap((room) =>
			room.wants
				.filter((want) => want.line === line.id && !want.ended)
				.map((want) => ({ room: room.id, name: names.room(room.id), since: want.when.text }))
		),
		mixes: line.mixes.map((mix) => ({
			...{ entry: mix.entry, by: mix.by, toldBy: mix.toldBy, when: mix.when },
			group: mix.group,
			groupName: names.group(mix.group),
			what: mix.what || mix.sort,
			name: names.member(mix.by)
		})),
		crosses: crossesOf(state, line.id),
		part: partIn(state, asking.me, null, line.id),
		disputed: line.disputes.some((dispute) => !dispute.decided),
		twoVersions: line.twoVersions.length > 0
	};
}

function roomOf(state: ClubState, holding: Holding, names: Names, mine: readonly ThingId[]): RoomOfLine {
	const room = state.rooms.get(holding.room);
	const unsure = room?.checks.find((each) => each.entry === holding.lastWord?.entry && each.has === 'unsure');
	return {
		...holding,
		name: names.room(holding.room),
		region: room?.region ?? '',
		keepers: (room?.keepers ?? []).map((id) => ({ id, name: names.member(id) })),
		mine: mine.includes(holding.room),
		sinceText: sinceText(holding),
		came: originWords(state, holding.origin, names),
		confirmedName: holding.confirmedBy ? saidByWords(saidBy(holding.confirmedBy, names)) : '',
		unsureName: unsure ? saidByWords(saidBy(unsure, names)) : ''
	};
}

/**
 * An old list's row lasts from its "since" to the moment of listing: only its beginning says since when, and a row
 * without one says nothing.
 */
export function sinceText(of: Pick<Holding, 'since' | 'origin'>): string {
	const text = of.since?.when.text ?? '';
	if (of.origin?.from !== 'list') return text;
	return text.includes('/') ? (text.split('/')[0] ?? '') : '';
}

function freshestFirst(a: RoomOfLine, b: RoomOfLine): number {
	return (b.confirmed ?? 0) - (a.confirmed ?? 0) || a.name.localeCompare(b.name);
}

function together(rooms: readonly Holding[]): Certainty | 'not known' {
	const counted = rooms.filter((each) => each.certainty !== 'not known');
	if (counted.length === 0) return 'not known';
	if (counted.every((each) => each.certainty === 'old list')) return 'old list';
	const sure = counted.length === rooms.length && counted.every((each) => each.certainty === 'counted');
	return sure && rooms.every((each) => each.notCounted === 0) ? 'counted' : 'about';
}

function bagsOf(state: ClubState, line: ThingId, names: Names): LinePage['bags'] {
	return [...new Set(state.bags.values())]
		.filter((bag) => bag.line === line)
		.sort((a, b) => (b.baggedAt?.last ?? 0) - (a.baggedAt?.last ?? 0))
		.slice(0, 30)
		.map((bag) => {
			const to =
				bag.to?.to === 'room'
					? names.room(bag.to.room)
					: bag.to && 'name' in bag.to
						? bag.to.name
						: 'not said yet';
			const from = bag.fromRoom ? names.room(bag.fromRoom) : 'not said yet';
			return { id: bag.id, number: bag.number, stage: bag.stage, words: `${from} to ${to}` };
		});
}

function exchangesOf(state: ClubState, line: ThingId, names: Names): LinePage['exchanges'] {
	return [...state.exchanges.values()]
		.filter((exchange) => exchange.line === line)
		.sort((a, b) => (b.proposed?.when.last ?? 0) - (a.proposed?.when.last ?? 0))
		.slice(0, 30)
		.map((exchange) => {
			const from = [...new Set(exchange.gives.map((give) => names.room(give.fromRoom)))].join(', ');
			const to = exchange.toRoom ? names.room(exchange.toRoom) : 'a room not said';
			return { id: exchange.id, stage: exchange.stage, words: `${from || 'a room not said'} to ${to}` };
		});
}

/** The coordinator and deputy first, then the keepers of the rooms that hold it; officers when there is nobody else. */
function peopleOf(state: ClubState, line: ThingId, rooms: readonly RoomOfLine[]): LinePage['people'] {
	const people = new Map<string, { id: string; name: string; what: string }>();
	const add = (id: string, name: string, what: string) => {
		const known = people.get(id);
		people.set(id, known ? { ...known, what: `${known.what}, ${what}` } : { id, name, what });
	};
	for (const role of ['coordinator', 'deputy'] as const) {
		for (const member of state.members.values()) {
			if (member.roles.some((each) => each.role === role && each.of === line))
				add(member.id, member.name, role);
		}
	}
	for (const room of rooms)
		for (const keeper of room.keepers) add(keeper.id, keeper.name, `keeps ${room.name}`);
	if (people.size === 0) {
		for (const member of state.members.values()) {
			if (member.roles.some((each) => each.role === 'officer')) add(member.id, member.name, 'officer');
		}
	}
	return [...people.values()];
}
