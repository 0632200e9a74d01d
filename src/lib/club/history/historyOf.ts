import type { Entry, EntryId, MemberId, ThingId } from '#records/entry.ts';
import type { Names, ThingType } from '#records/kind.ts';
import { namesOf, sentenceOf } from '#records/names.ts';
import { idTime } from '#records/rank.ts';
import type { ClubState, Dispute, Thing, Verdict } from '#records/state.ts';
import { partIn } from '../people/partIn.ts';
import type { Asking } from '../question.ts';

/** One statement about a thing, with everything that was said of it since. */
export interface Statement {
	readonly id: EntryId;
	readonly kind: string;
	readonly sentence: string;
	readonly by: MemberId;
	readonly who: string;
	readonly toldBy: string;
	readonly device: string;
	/** ISO 8601-2, as written. */
	readonly happened: string;
	/** When it was written down, ms since 1970. */
	readonly written: number;
	/** The writer's clock was wrong: the server's time stands beside it. */
	readonly clockWrong: boolean;
	readonly acceptedAt: number | null;
	readonly verdict: Verdict;
	/** Entries that replace it, live ones only; empty = it stands. */
	readonly correctedBy: readonly EntryId[];
	/** What the corrections said, with their reasons. */
	readonly corrections: readonly string[];
	/** Two corrections that had not seen each other. */
	readonly twoVersions: boolean;
	/** What others said about it: confirmed, disputed, decided. */
	readonly words: readonly {
		readonly id: EntryId;
		readonly sentence: string;
		readonly who: string;
		readonly counts: boolean;
	}[];
	/** An open dispute, for the one who decides. */
	readonly openDispute: { readonly id: EntryId; readonly reason: string; readonly who: string } | null;
	readonly mine: boolean;
	readonly mayCorrect: boolean;
	readonly mayConfirm: boolean;
	readonly mayDispute: boolean;
	readonly mayDecide: boolean;
	readonly body: unknown;
}

export type HistorySubject = ThingType;
export interface HistoryAsked {
	readonly type: HistorySubject;
	readonly id: ThingId;
	/** At most so many, newest first. */
	readonly limit?: number;
}
export interface History {
	readonly statements: readonly Statement[];
	/** How many there are in all. */
	readonly all: number;
}

const tapsOnEntries = new Set(['word/confirmed', 'word/disputed', 'word/decided']);

/**
 * History of a thing: what was said, by whom, when did it happen and when was it written, what was corrected, and what
 * does not count and why? In the order of the club's history, newest first. Nothing is ever left out of it.
 */
export function historyOf(state: ClubState, args: HistoryAsked, asking: Asking): History {
	const thing = thingOf(state, args);
	if (!thing) return { statements: [], all: 0 };
	const names = namesOf(state, asking.fold);
	const ids = new Set(thing.entries);
	if (args.type === 'member') {
		for (const id of asking.fold.ids()) if (asking.fold.entry(id)?.by === args.id) ids.add(id);
	}
	for (const id of tellingOf(state, args)) ids.add(id);
	const shown = [...ids]
		.filter((id) => !tapsOnEntries.has(asking.fold.entry(id)?.kind ?? ''))
		.sort((a, b) => (asking.fold.rankOf(a) < asking.fold.rankOf(b) ? 1 : -1));
	const { room, line } = placeOf(thing, args.type);
	const part = partIn(state, asking.me, room, line);
	return {
		all: shown.length,
		statements: shown
			.slice(0, args.limit ?? 200)
			.flatMap((id) => statement(id, thing, part.any, part.officer || part.coordinates, names, asking) ?? [])
	};
}

/** One statement with all that was said of it; null for an entry that has not come. */
export function statement(
	id: EntryId,
	thing: Pick<Thing, 'disputes' | 'twoVersions'> | null,
	hasPart: boolean,
	decides: boolean,
	names: Names,
	asking: Asking
): Statement | null {
	const entry = asking.fold.entry(id);
	const view = asking.fold.view(id);
	if (!entry || !view) return null;
	const speaking = asking.fold.speakingOf(id);
	const open = thing?.disputes.find((dispute: Dispute) => dispute.of === id && !dispute.decided) ?? null;
	const mine = entry.by === asking.me;
	const server = entry.by === 'club';
	const stands = view.correctedBy.length === 0;
	return {
		id,
		kind: entry.kind,
		sentence: capital(sentenceOf(entry, names)),
		by: entry.by,
		who: names.member(entry.by),
		toldBy: entry.toldBy ? toldByName(entry.toldBy, names) : '',
		device: entry.device,
		happened: entry.happened,
		written: idTime(entry.id) ?? 0,
		clockWrong: view.clockWrong,
		acceptedAt: view.acceptedAt,
		verdict: view.verdict,
		correctedBy: view.correctedBy,
		corrections: speaking
			.filter((each) => view.correctedBy.includes(each.id))
			.map((each) => `${names.member(each.by)}: ${sentenceOf(each, names)}`),
		twoVersions: thing?.twoVersions.some((set) => set.includes(id)) ?? false,
		words: speaking
			.filter((each) => tapsOnEntries.has(each.kind))
			.map((each) => spokenWord(each, names, asking)),
		openDispute: open ? { id: open.entry, reason: open.reason, who: names.member(open.by) } : null,
		mine,
		mayCorrect: !server && stands && (mine || hasPart) && entry.kind !== 'word/withdrawn',
		mayConfirm: view.verdict.name === 'told by' && stands && !mine && hasPart,
		mayDispute: !server && stands && !mine && open === null,
		mayDecide: open !== null && decides,
		body: entry.body
	};
}

function spokenWord(entry: Entry, names: Names, asking: Asking): Statement['words'][number] {
	const verbs: Record<string, string> = {
		'word/confirmed': 'says so too',
		'word/disputed': 'doubts it',
		'word/decided': 'decided'
	};
	const body = (entry.body ?? {}) as { reason?: unknown; stands?: unknown };
	const decided =
		entry.kind === 'word/decided' ? (body.stands === true ? ': it stands' : ': it does not stand') : '';
	const reason = typeof body.reason === 'string' && body.reason ? `. ${body.reason}` : '';
	return {
		id: entry.id,
		sentence: `${names.member(entry.by)} ${verbs[entry.kind] ?? ''}${decided}${reason}`,
		who: names.member(entry.by),
		counts: asking.fold.view(entry.id)?.verdict.name === 'counts'
	};
}

/** `toldBy` is a member's id or plain words. */
function toldByName(toldBy: string, names: Names): string {
	const name = names.member(toldBy);
	return name === names.member('') ? toldBy : name;
}

/**
 * What a line's and a room's history holds besides the entries that name them: how their groups began and ended, their
 * spawns, their bags.
 */
function tellingOf(state: ClubState, { type, id }: HistoryAsked): EntryId[] {
	if (type !== 'line' && type !== 'room') return [];
	const of = (thing: { line: ThingId | null; room: ThingId | null }) => thing[type] === id;
	const groups = [...state.groups.values()].filter(of).flatMap(({ started, ended }) => [started, ended]);
	const spawns = [...state.spawns.values()].filter(of).map(({ seen }) => seen);
	const bags = [...state.bags.values()]
		.filter((bag) =>
			type === 'line' ? bag.line === id : bag.fromRoom === id || (bag.to?.to === 'room' && bag.to.room === id)
		)
		.flatMap((bag) => [...bag.statements, ...bag.arrivals]);
	return [...groups, ...spawns, ...bags].flatMap((said) => (said ? [said.entry] : []));
}

function thingOf(state: ClubState, { type, id }: HistoryAsked): Thing | null {
	if (type === 'club') return state.club;
	const maps = {
		member: state.members,
		room: state.rooms,
		line: state.lines,
		group: state.groups,
		spawn: state.spawns,
		bag: state.bags,
		exchange: state.exchanges,
		meeting: state.meetings
	} as const;
	return maps[type].get(id) ?? null;
}

function placeOf(thing: Thing, type: HistorySubject): { room: ThingId | null; line: ThingId | null } {
	if (type === 'room') return { room: thing.id, line: null };
	if (type === 'line') return { room: null, line: thing.id };
	const placed = thing as Thing & {
		room?: ThingId | null;
		toRoom?: ThingId | null;
		fromRoom?: ThingId | null;
		line?: ThingId | null;
	};
	return { room: placed.room ?? placed.fromRoom ?? placed.toRoom ?? null, line: placed.line ?? null };
}

function capital(sentence: string): string {
	return sentence.charAt(0).toUpperCase() + sentence.slice(1);
}
