import { exchangeStage, type ExchangeWord } from '#club/exchanges/exchangeStage.ts';
import { groupInLine } from '#club/groups/groupInLine.ts';
import { dayMs } from '#club/question.ts';
import type { PairingRow, TakeFromBrood } from '#pedigree/pairingAdvice.ts';
import { bagNumberText } from '#records/bagNumberText.ts';
import type { ThingId } from '#records/entry.ts';
import { addFish, noFish } from '#records/fishCount.ts';
import { namesOf } from '#records/names.ts';
import type { ClubState, Exchange, Fish, Line } from '#records/state.ts';
import { pairsAfter, type BagById } from './pairsAfter.ts';
import { planPacking } from './planPacking.ts';
import { planStep } from './planStep.ts';
import { exchangesByPlan } from './plansList.ts';
import type { SeasonAsking } from './seasonAsking.ts';

/** Fish that come are kept apart for so long: common practice, no source. */
const quarantineDays = 28;
/** Last food one to two days before small fish travel: common practice, no source. */
const fastingDays = [2, 1] as const;

export interface SheetBag {
	readonly line: ThingId;
	readonly lineName: string;
	readonly code: string;
	readonly fish: Fish;
	/** The groups that they are taken from, with their tanks in the keeper's words. */
	readonly groups: readonly { readonly name: string; readonly tank: string; readonly fish: Fish }[];
	/** The room at the other end, and who keeps it. */
	readonly other: string;
	readonly otherKeepers: string;
	/** The number on the bag once it is filled; '' = not yet. */
	readonly number: string;
	/** How far it is; '' = nobody was asked yet. */
	readonly word: ExchangeWord | '';
	/** How such fish are packed. */
	readonly packing: string;
}
export interface SheetPairs {
	readonly lineName: string;
	readonly pairs: readonly PairingRow[];
	readonly take: readonly TakeFromBrood[];
	/** Why there are no pairs; '' = there are. */
	readonly none: string;
}
/** What one room has to know of a plan, on one page. */
export interface PlanSheet {
	readonly room: ThingId;
	readonly name: string;
	readonly keepers: string;
	readonly gives: readonly SheetBag[];
	readonly takes: readonly SheetBag[];
	readonly breeding: readonly SheetPairs[];
	/** What is to be known before fish of these lines move. */
	readonly movements: readonly Exclude<Line['movement'], 'none'>[];
}
export interface PlanSheets {
	/** '' = not sent yet. */
	readonly name: string;
	readonly meeting: { readonly name: string; readonly place: string } | null;
	/** ISO date on which the bags move; '' = not set. Those below are '' with it. */
	readonly day: string;
	/** The two days on which they are fed last. */
	readonly lastFood: readonly [string, string] | null;
	/** Until when what comes is kept apart. */
	readonly apartUntil: string;
	readonly sheets: readonly PlanSheet[];
}
export interface SheetsOf {
	/** A plan that was sent; null = the bags below, which nobody was asked for yet. */
	readonly plan: ThingId | null;
	readonly bags: readonly BagById[];
	readonly meeting: ThingId | null;
	/** ISO date, where there is no meeting; '' = not set. */
	readonly until: string;
}

interface Moving {
	readonly line: ThingId;
	readonly toRoom: ThingId;
	readonly gives: readonly { readonly room: ThingId; readonly group: ThingId | null; readonly fish: Fish }[];
	readonly number: string;
	readonly word: ExchangeWord | '';
	/** Its fish still are where they were. */
	readonly isToCome: boolean;
}

/**
 * Plan sheets: what has each room to do by this plan, on paper for whoever keeps it?
 *
 * Of a plan that was sent, bags that somebody said no to or that came to nothing are left out. Null = no such plan.
 */
export function planSheets(state: ClubState, of: SheetsOf, asking: SeasonAsking): PlanSheets | null {
	const exchanges = of.plan ? exchangesByPlan(state).get(of.plan) : [];
	if (!exchanges) return null;
	const bags = of.plan ? movingOf(state, exchanges, asking.now) : of.bags.map((bag) => notAsked(state, bag));
	const meetingId = of.plan ? exchanges.find(({ meeting }) => meeting)?.meeting : of.meeting;
	const meeting = meetingId ? state.meetings.get(meetingId) : undefined;
	const day = meeting?.date ?? (of.plan ? '' : of.until);
	const names = namesOf(state, null);
	const toCome = bags.filter(({ isToCome }) => isToCome).map(byId);
	const breeding = pairsAfter(state, { bags: toCome, givers: true }, asking);
	const rooms = [...new Set(bags.flatMap((bag) => [bag.toRoom, ...giversOf(bag)]))];
	const sheets = rooms.map((room): PlanSheet => {
		const takes = bags.filter(({ toRoom }) => toRoom === room);
		const gives = bags.filter((bag) => giversOf(bag).includes(room));
		const movements = [...gives, ...takes].flatMap(({ line }) => state.lines.get(line)?.movement ?? []);
		return {
			...{ room, name: names.room(room), keepers: keepersOf(state, room) },
			gives: gives.map((bag) => sheetBag(state, bag, room, bag.toRoom)),
			takes: takes.map((bag) => sheetBag(state, bag, null, giversOf(bag))),
			breeding: breeding
				.filter((one) => one.room === room)
				.map(({ lineName, pairs, take, none }) => ({ lineName, pairs, take, none })),
			movements: [...new Set(movements)].filter((one) => one !== 'none')
		};
	});
	return {
		name: exchanges.at(-1)?.plan?.name ?? '',
		meeting: meeting ? { name: names.meeting(meeting.id), place: meeting.place } : null,
		day,
		lastFood: day ? [dayFrom(day, -fastingDays[0]), dayFrom(day, -fastingDays[1])] : null,
		apartUntil: day ? dayFrom(day, quarantineDays) : '',
		sheets: sheets.sort((a, b) => a.name.localeCompare(b.name) || (a.room < b.room ? -1 : 1))
	};
}

function movingOf(state: ClubState, exchanges: readonly Exchange[], now: number): Moving[] {
	return exchanges.flatMap((one): Moving[] => {
		const { word } = exchangeStage(state, one, now);
		if (!one.line || !one.toRoom || ['declined', 'over'].includes(planStep(word))) return [];
		const numbers = one.bags.flatMap((id) => state.bags.get(id)?.number || []).map(bagNumberText);
		return [
			{
				...{ line: one.line, toRoom: one.toRoom, word, number: [...new Set(numbers)].join(', ') },
				gives: one.gives.map(({ fromRoom, group, fish }) => ({ room: fromRoom, group, fish })),
				isToCome: one.bags.length === 0
			}
		];
	});
}

function notAsked(state: ClubState, { line, toRoom, gives }: BagById): Moving {
	const from = gives.flatMap(({ group, fish }) => {
		const room = state.groups.get(group)?.room;
		return room ? [{ room, group, fish }] : [];
	});
	return { line, toRoom, gives: from, number: '', word: '', isToCome: true };
}

const byId = ({ line, toRoom, gives }: Moving): BagById => ({
	...{ line, toRoom },
	gives: gives.flatMap(({ group, fish }) => (group ? [{ group, fish }] : []))
});

const giversOf = ({ gives }: Moving) => [...new Set(gives.map(({ room }) => room))].sort();

function keepersOf(state: ClubState, room: ThingId): string {
	const names = namesOf(state, null);
	return (state.rooms.get(room)?.keepers ?? []).map(names.member).join(' and ');
}

/** @param from a giving room whose fish alone are told; null = all of the bag */
function sheetBag(
	state: ClubState,
	bag: Moving,
	from: ThingId | null,
	others: ThingId | readonly ThingId[]
): SheetBag {
	const names = namesOf(state, null);
	const line = state.lines.get(bag.line);
	const gives = bag.gives.filter(({ room }) => from === null || room === from);
	const rooms = typeof others === 'string' ? [others] : others;
	return {
		...{ line: bag.line, lineName: names.line(bag.line), code: line?.code ?? '' },
		fish: gives.reduce((sum, { fish }) => addFish(sum, fish), noFish),
		groups: gives.map(({ group, fish }) => ({
			...{
				name: group ? groupInLine(state, group) : '',
				tank: state.groups.get(group ?? '')?.tank ?? '',
				fish
			}
		})),
		other: rooms.map(names.room).join(' and '),
		otherKeepers: rooms
			.map((room) => keepersOf(state, room))
			.filter(Boolean)
			.join(' and '),
		...{ number: bag.number, word: bag.word, packing: planPacking[line?.fishGroup ?? 'other'] }
	};
}

const dayFrom = (day: string, days: number) =>
	new Date(Date.parse(`${day}T00:00:00Z`) + days * dayMs).toISOString().slice(0, 10);
