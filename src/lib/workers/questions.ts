/**
 * Questions that screens ask of the club. Each is a pure function of the club state, so that it runs here, on a
 * server and in tests alike. Adding one: a function under club/ and a line in this list.
 */
import { bagPage } from '#club/bags/bagPage.ts';
import { bagStart } from '#club/bags/bagStart.ts';
import { bagsList } from '#club/bags/bagsList.ts';
import { bagsToSettle } from '#club/bags/bagsToSettle.ts';
import { bagsToday } from '#club/bags/bagsToday.ts';
import { freshBlood } from '#club/bags/freshBlood.ts';
import { exchangeCandidates } from '#club/exchanges/exchangeCandidates.ts';
import { exchangePage } from '#club/exchanges/exchangePage.ts';
import { exchangeStart } from '#club/exchanges/exchangeStart.ts';
import { exchangesOverview } from '#club/exchanges/exchangesOverview.ts';
import { meetingPage } from '#club/meetings/meetingPage.ts';
import { meetingsList } from '#club/meetings/meetingsList.ts';
import { groupPage } from '#club/groups/groupPage.ts';
import { historyOf } from '#club/history/historyOf.ts';
import { notShared } from '#club/history/notShared.ts';
import { todayOnDevice } from '#club/history/todayOnDevice.ts';
import { kinshipOfPair } from '#club/lines/kinshipOfPair.ts';
import { kinshipTable } from '#club/lines/kinshipTable.ts';
import { lineChance } from '#club/lines/lineChance.ts';
import { lineFamily } from '#club/lines/lineFamily.ts';
import { lineFigures } from '#club/lines/lineFigures.ts';
import { linePage } from '#club/lines/linePage.ts';
import { linesOverview } from '#club/lines/linesOverview.ts';
import { readFirstList } from '#club/lines/readFirstList.ts';
import { memberPage } from '#club/people/memberPage.ts';
import { needsYou } from '#club/needs/needsYou.ts';
import { myPart } from '#club/people/myPart.ts';
import { pairingInRoom } from '#club/rooms/pairingInRoom.ts';
import { regionsFar } from '#club/rooms/regionsFar.ts';
import { roomPage } from '#club/rooms/roomPage.ts';
import { roomsList } from '#club/rooms/roomsList.ts';
import { spawnPage } from '#club/spawns/spawnPage.ts';
import { spawnStart } from '#club/spawns/spawnStart.ts';
import { lineAhead } from '#season/ahead/lineAhead.ts';
import { lossAhead } from '#season/ahead/lossAhead.ts';
import { pairsAfter } from '#season/pairsAfter.ts';
import { planPage } from '#season/planPage.ts';
import { planSheets } from '#season/planSheets.ts';
import { plansList } from '#season/plansList.ts';
import { repairSettings } from '#season/repairSettings.ts';
import { seasonProblem } from '#season/seasonProblem.ts';
import { seasonStart } from '#season/seasonStart.ts';
import type { Audience, Entry, EntryId, MemberId, ThingId } from '#records/entry.ts';
import type { Fold } from '#records/fold.ts';
import type { ClubState, EntryView } from '#records/state.ts';

export interface QuestionContext {
	/** ms since 1970, rounded down to a minute, so that an answer stays the same while nothing happens. */
	readonly now: number;
	readonly me: MemberId;
	readonly fold: Fold;
	/** Entries of private audiences that this member may read; they change nothing in the club state. */
	readonly privateEntries: ReadonlyMap<Audience, ReadonlyMap<EntryId, Entry>>;
}

export type Question = (state: ClubState, args: never, context: QuestionContext) => unknown;

export interface Counts {
	readonly entries: number;
	readonly members: number;
	readonly rooms: number;
	readonly lines: number;
	readonly groups: number;
	readonly bags: number;
	readonly exchanges: number;
}

/** How much the club has of everything. */
export function counts(state: ClubState, _args: unknown, { fold }: QuestionContext): Counts {
	return {
		entries: fold.size,
		members: state.members.size,
		rooms: state.rooms.size,
		lines: state.lines.size,
		groups: state.groups.size,
		bags: new Set(state.bags.values()).size,
		exchanges: state.exchanges.size
	};
}

export interface ToldEntry {
	readonly entry: Entry;
	readonly view: EntryView;
}

/** Entries about one thing, or all by one member, or those named; in the order of the club's history. */
export function entriesOf(
	_state: ClubState,
	args: { readonly about?: ThingId; readonly by?: MemberId; readonly ids?: readonly EntryId[] },
	{ fold }: QuestionContext
): ToldEntry[] {
	const found: ToldEntry[] = [];
	for (const id of args.ids ?? fold.ids()) {
		const entry = fold.entry(id);
		const view = fold.view(id);
		if (!entry || !view) continue;
		if (args.about !== undefined && !entry.about.includes(args.about)) continue;
		if (args.by !== undefined && entry.by !== args.by) continue;
		found.push({ entry, view });
	}
	const rank = new Map(found.map(({ entry }) => [entry.id, fold.rankOf(entry.id)]));
	return found.sort((one, other) => (rank.get(one.entry.id)! < rank.get(other.entry.id)! ? -1 : 1));
}

/** Private words of an audience, oldest first. */
export function privateEntriesOf(
	_state: ClubState,
	args: { readonly audience: Audience },
	{ privateEntries }: QuestionContext
): Entry[] {
	const entries = [...(privateEntries.get(args.audience)?.values() ?? [])];
	return entries.sort((one, other) => (one.id < other.id ? -1 : 1));
}

export const questions = {
	counts,
	entriesOf,
	privateEntriesOf,
	bagPage,
	bagStart,
	bagsList,
	bagsToSettle,
	bagsToday,
	exchangeCandidates,
	exchangePage,
	exchangeStart,
	exchangesOverview,
	freshBlood,
	groupPage,
	historyOf,
	needsYou,
	kinshipOfPair,
	kinshipTable,
	lineAhead,
	lossAhead,
	lineChance,
	lineFamily,
	lineFigures,
	linePage,
	linesOverview,
	meetingPage,
	meetingsList,
	memberPage,
	myPart,
	notShared,
	pairingInRoom,
	pairsAfter,
	planPage,
	planSheets,
	plansList,
	readFirstList,
	regionsFar,
	repairSettings,
	roomPage,
	roomsList,
	seasonProblem,
	seasonStart,
	spawnPage,
	spawnStart,
	todayOnDevice
} satisfies Record<string, Question>;

export type QuestionName = keyof typeof questions;
export type QuestionArgs<Name extends QuestionName> = Parameters<(typeof questions)[Name]>[1];
export type QuestionAnswer<Name extends QuestionName> = ReturnType<(typeof questions)[Name]>;
