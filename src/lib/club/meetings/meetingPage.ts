import type { MemberId, ThingId } from '#records/entry.ts';
import { addFish, noFish } from '#records/fishCount.ts';
import { namesOf } from '#records/names.ts';
import type { ClubState, Fish } from '#records/state.ts';
import { bagRow, newestFirst, type BagRow } from '../bags/bagRow.ts';
import { spoken, type Spoken } from '../bags/spoken.ts';
import { exchangeStage, type ExchangeNow } from '../exchanges/exchangeStage.ts';
import { partIn } from '../people/partIn.ts';
import type { Asking } from '../question.ts';
import { meetingRow, type MeetingRow } from './meetingsList.ts';

export interface MeetingPage extends MeetingRow {
	readonly known: boolean;
	readonly plannedSaid: Spoken | null;
	readonly attending: readonly (Spoken & {
		readonly room: ThingId;
		readonly name: string;
		readonly keepers: string;
		readonly coming: boolean;
	})[];
	/** Rooms of the member, with what each has said. */
	readonly myRooms: readonly {
		readonly id: ThingId;
		readonly name: string;
		readonly coming: boolean | null;
		readonly entry: string;
	}[];
	readonly bagRows: readonly BagRow[];
	/** Exchanges planned for this meeting, those that still need a bag first. */
	readonly exchanges: readonly {
		readonly id: ThingId;
		readonly now: ExchangeNow;
		readonly line: string;
		readonly lineCode: string;
		readonly fish: Fish;
		readonly from: string;
		readonly to: string;
		readonly mine: boolean;
	}[];
	readonly runners: readonly { readonly id: MemberId; readonly name: string }[];
	readonly runs: boolean;
	readonly mayPlan: boolean;
	/** Members who may be made runner, for officers. */
	readonly members: readonly { readonly id: MemberId; readonly name: string }[];
}

const order = ['agreed', 'asked', 'proposed', 'bagged', 'handed over', 'arrived'];

/** Meeting page: who comes, which bags move, which exchanges were agreed for it? */
export function meetingPage(
	state: ClubState,
	args: { readonly meeting: ThingId },
	asking: Asking
): MeetingPage | null {
	const meeting = state.meetings.get(args.meeting);
	if (!meeting) return null;
	const names = namesOf(state, null);
	const mine = state.members.get(asking.me)?.rooms ?? [];
	const runners = [...state.members.values()].filter((member) =>
		member.roles.some((role) => role.role === 'runner' && role.of === meeting.id)
	);
	const exchanges = [...state.exchanges.values()]
		.filter((one) => one.meeting === meeting.id)
		.map((one) => ({
			id: one.id,
			now: exchangeStage(state, one, asking.now),
			line: one.line ? names.line(one.line) : '',
			lineCode: one.line ? (state.lines.get(one.line)?.code ?? '') : '',
			fish: one.gives.reduce((sum, give) => addFish(sum, give.fish), noFish),
			from: [...new Set(one.gives.map((give) => names.room(give.fromRoom)))].join(' and '),
			to: one.toRoom ? names.room(one.toRoom) : '',
			mine: [one.toRoom, ...one.gives.map((give) => give.fromRoom)].some(
				(room) => room !== null && mine.includes(room)
			)
		}));
	const place = (word: string) => (order.includes(word) ? order.indexOf(word) : order.length);
	return {
		...meetingRow(state, meeting, asking),
		known: meeting.known,
		plannedSaid: meeting.planned ? spoken(meeting.planned, names, asking) : null,
		attending: meeting.attending
			.map((said) => ({
				...spoken(said, names, asking),
				room: said.room,
				name: names.room(said.room),
				keepers: (state.rooms.get(said.room)?.keepers ?? []).map((id) => names.member(id)).join(' and '),
				coming: said.coming
			}))
			.sort((a, b) => Number(b.coming) - Number(a.coming) || a.name.localeCompare(b.name)),
		myRooms: mine.map((id) => {
			const said = meeting.attending.find((one) => one.room === id);
			return { id, name: names.room(id), coming: said?.coming ?? null, entry: said?.entry ?? '' };
		}),
		bagRows: [...new Set(meeting.bags.flatMap((id) => state.bags.get(id) ?? []))]
			.map((bag) => bagRow(state, bag, names, asking))
			.sort(newestFirst),
		exchanges: exchanges.sort(
			(a, b) => place(a.now.word) - place(b.now.word) || a.line.localeCompare(b.line)
		),
		runners: runners.map((member) => ({ id: member.id, name: names.member(member.id) })),
		runs: runners.some((member) => member.id === asking.me),
		mayPlan: partIn(state, asking.me, null, null).officer,
		members: [...state.members.values()]
			.filter((member) => member.joined && !member.left)
			.map((member) => ({ id: member.id, name: names.member(member.id) }))
	};
}
