import { crossRule } from '#club/lines/crossRule.ts';
import { holdings } from '#club/lines/holdings.ts';
import { lineState } from '#club/lines/lineState.ts';
import { rulesOf } from '#club/lines/rulesOf.ts';
import { tanksFree } from '#club/rooms/tanksFree.ts';
import { lineKinships } from '#pedigree/lineKinships.ts';
import type { SeasonLine, SeasonProblem, SeasonWish } from '#planning/season/season.ts';
import type { ThingId } from '#records/entry.ts';
import { namesOf } from '#records/names.ts';
import type { ClubState, Meeting, Room } from '#records/state.ts';
import { bannedBags } from './bannedBags.ts';
import { LineDraft } from './lineDraft.ts';
import { linesToPlan } from './linesToPlan.ts';
import { LineMeans } from './lineMeans.ts';
import { fishOfLine, type SortingFish } from './fishOfLine.ts';
import { openPromises } from './openPromises.ts';
import { planDay } from './planDay.ts';
import { roomsApart } from './roomsApart.ts';
import { roomStops } from './roomStops.ts';
import { roomTraffic } from './roomTraffic.ts';
import type { SeasonAsking } from './seasonAsking.ts';
import type { SeasonSettings } from './seasonSettings.ts';
import { seasonWeights } from './seasonWeights.ts';
import { seasonWishes } from './seasonWishes.ts';
import type { SeasonAsked, SeasonRoomWords } from './seasonWords.ts';
import { tankWords } from './tankWords.ts';
import { tripCost, tripWord } from './tripCosts.ts';
import { waitingList } from './waitingList.ts';

/** Full brothers and sisters, parent and young: mates as close as that only where a room has no others. */
const tooClose = 0.25;
/** Two of one sex; six not sexed are one of each sex at least with 95 in 100 chances (own arithmetic, exact binomial). */
const bagOfOneSex = 2;
const bagOfUnsexed = 6;
/** Twelve not sexed are three of each sex at least with 95 in 100 chances (own arithmetic, exact binomial). */
const foundingBag = { males: 2, females: 3, unsexed: 12 } as const;

/**
 * Season problem: what is asked of the solver for these lines, and the names behind it?
 *
 * Everything is taken from the record as it stands and from the settings; places in the lists are by id, so that the
 * same record gives the same problem whatever the order of arrival. Private words of officers and coordinators come
 * in only where this member may read them, as pairs of rooms that stay apart.
 */
export function seasonProblem(
	state: ClubState,
	{ settings }: { readonly settings: SeasonSettings },
	asking: SeasonAsking
): SeasonAsked {
	const { now } = asking;
	const names = namesOf(state, null);
	const when = planDay(state, settings, now);
	const stops = roomStops(state, when);
	for (const room of settings.without) stops.set(room, `${names.room(room)}: you left it out of this plan.`);
	const promises = openPromises(state, now, settings.repairs);
	const standing = settings.repairs
		? openPromises(state, now, null).filter((one) => one.plan?.id === settings.repairs)
		: [];
	const sorting: SortingFish = { state, settings, names, when, stops, promises, standing };
	const chosen = linesToPlan(state, asking.me).filter(
		({ line }) => settings.lines.length === 0 || settings.lines.includes(line.id)
	);
	const drafts = chosen.map(({ line, sendsAll }) => {
		const held = holdings(state, line, now);
		const means = new LineMeans(lineKinships.of(state, line.id));
		return new LineDraft(state, names, line, {
			...{ sendsAll, means, word: lineState(line, held, now) },
			fish: fishOfLine(sorting, line.id, held, means),
			waiting: waitingList(state, line, held)
		});
	});
	const rooms = roomsOf(state, drafts);
	const placeOf = new Map(rooms.map((room, i) => [room.id, i]));
	const among = placesAmong(drafts);
	const holdingsOf = drafts.flatMap((draft, line) => draft.holdings(line, placeOf));
	const sources = drafts.flatMap((draft, line) => draft.sources(line, placeOf, among(line)));
	const meeting = settings.meeting ? state.meetings.get(settings.meeting) : undefined;
	const comes = (room: Room) =>
		meeting !== undefined && (saidToCome(meeting, room.id, settings.comes) ?? settings.notSaidCounts);
	const trips = rooms.map((one) => rooms.map((other) => tripWord(one, other, comes, state.club.far)));
	const tanksSaid = tanksFree(state, now);
	const traffic = roomTraffic(state, { now, promises, meeting: settings.meeting, settings });
	const lines: SeasonLine[] = drafts.map((draft) => ({
		...{ id: draft.line.id, holders: draft.word.confirmed, wantedHolders: rulesOf(draft.line).targetRooms },
		kinship: draft.matrix()
	}));
	const bare: SeasonProblem = {
		rooms: rooms.map((room) => ({ id: room.id, isClosed: stops.has(room.id), ...traffic(room.id) })),
		...{ lines, holdings: holdingsOf.map(({ holding }) => holding) },
		sources: sources.map(({ source }) => source),
		tripCost: trips.map((row) => row.map(tripCost)),
		apart: roomsApart(state, asking).flatMap(([one, other]) => {
			const [a, b] = [placeOf.get(one), placeOf.get(other)];
			return a === undefined || b === undefined ? [] : [[a, b] as const];
		}),
		outcrosses: settings.outcrosses.flatMap(([from, to, into]) => {
			const [a, b] = [from, to].map((id) => drafts.findIndex((one) => one.line.id === id && one.sendsAll));
			const [one, other] = [drafts[a!], drafts[b!]];
			if (!one || !other || a === b || crossRule(one.line, other.line).forbidden) return [];
			const has = holdingsOf.some(
				({ holding: { line, room, males, females } }) =>
					line === b && rooms[room]!.id === into && males + females > 0
			);
			return has ? [[a!, b!, placeOf.get(into)!] as const] : [];
		}),
		...{ banned: [...settings.banned].sort(), wishes: [], weights: seasonWeights(settings) },
		...{ tooClose, bagOfOneSex, bagOfUnsexed, foundingBag }
	};
	const wishes: SeasonWish[] = seasonWishes(
		bare,
		settings,
		drafts.map(({ word }) => word.word)
	);
	const problem = { ...bare, wishes, banned: bannedBags(bare, settings) };
	return {
		problem,
		words: {
			rooms: rooms.map((room) =>
				roomWords(state, room, {
					...{ stop: stops.get(room.id) ?? '', comes: comes(room) },
					tanks: settings.limits[room.id]?.tanksFree === undefined ? tankWords(tanksSaid(room)) : '',
					hasSaid: meeting !== undefined && saidToCome(meeting, room.id, settings.comes) !== null
				})
			),
			lines: drafts.map((draft) => draft.lineWords()),
			holdings: holdingsOf.map(({ words }) => words),
			sources: sources.map(({ words }) => words),
			trips,
			meeting: meeting ? { id: meeting.id, name: names.meeting(meeting.id), date: meeting.date } : null,
			leftOut: drafts.flatMap(({ fish }) => fish.leftOut)
		}
	};

	function roomWords(
		of: ClubState,
		room: Room,
		more: Pick<SeasonRoomWords, 'stop' | 'comes' | 'hasSaid' | 'tanks'>
	): SeasonRoomWords {
		const isApart = [...of.groups.values()].some(
			(group) =>
				group.room === room.id &&
				!group.ended &&
				(group.closed !== null || (group.quarantine?.untilMs ?? 0) > now)
		);
		return {
			...{ id: room.id, name: names.room(room.id), region: room.region, house: room.house, ...more },
			keepers: room.keepers.map((id) => names.member(id)).join(' and '),
			isTroubled: isApart || room.closed !== null,
			mine: of.members.get(asking.me)?.rooms.includes(room.id) ?? false
		};
	}
}

/** Rooms that hold one of the lines or ask for it, by id. */
function roomsOf(state: ClubState, drafts: readonly LineDraft[]): Room[] {
	const ids = new Set<ThingId>(drafts.flatMap((draft) => draft.rooms()));
	return [...ids].sort().flatMap((id) => state.rooms.get(id) ?? []);
}

/** Where each line's holdings and sources stand in the lists of all. */
function placesAmong(drafts: readonly LineDraft[]) {
	const held = drafts.map((draft) => draft.rooms().length);
	const given = drafts.map((draft) => draft.fish.sources.length);
	const sum = (counts: readonly number[]) => counts.reduce((total, count) => total + count, 0);
	return (line: number) => ({
		holdings: { before: sum(held.slice(0, line)), all: sum(held) },
		sources: { before: sum(given.slice(0, line)), all: sum(given) }
	});
}

/** Whether somebody of the room comes: as the planning member says, else as the room said; null = nobody said. */
function saidToCome(meeting: Meeting, room: ThingId, comes: SeasonSettings['comes']): boolean | null {
	return comes[room] ?? meeting.attending.find((said) => said.room === room)?.coming ?? null;
}
