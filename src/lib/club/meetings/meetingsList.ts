import type { ThingId } from '#records/entry.ts';
import { namesOf } from '#records/names.ts';
import type { ClubState, Meeting } from '#records/state.ts';
import { partIn } from '../people/partIn.ts';
import type { Asking } from '../question.ts';
import { dayOfMeeting } from './meetingNow.ts';

export interface MeetingRow {
	readonly id: ThingId;
	readonly name: string;
	readonly date: string;
	readonly place: string;
	readonly coming: number;
	readonly bags: number;
	readonly calledOff: boolean;
	readonly over: boolean;
	/** What the member's rooms said; null = nothing yet. */
	readonly mine: boolean | null;
	readonly planned: string;
}
export interface MeetingsList {
	readonly ahead: readonly MeetingRow[];
	readonly past: readonly MeetingRow[];
	readonly mayPlan: boolean;
}

/** Meetings list: when does the club meet next, and who comes? */
export function meetingsList(state: ClubState, _args: Record<string, never>, asking: Asking): MeetingsList {
	const rows = [...state.meetings.values()]
		.filter((one) => one.known)
		.map((one) => meetingRow(state, one, asking));
	const byDate = (a: MeetingRow, b: MeetingRow) =>
		(a.date || '9999').localeCompare(b.date || '9999') || (a.id < b.id ? -1 : 1);
	return {
		ahead: rows.filter((row) => !row.over).sort(byDate),
		past: rows.filter((row) => row.over).sort((a, b) => byDate(b, a)),
		mayPlan: partIn(state, asking.me, null, null).officer
	};
}

export function meetingRow(state: ClubState, meeting: Meeting, asking: Asking): MeetingRow {
	const names = namesOf(state, null);
	const mine = state.members.get(asking.me)?.rooms ?? [];
	const said = meeting.attending.filter((one) => mine.includes(one.room));
	const day = dayOfMeeting(state, meeting);
	return {
		id: meeting.id,
		name: names.meeting(meeting.id),
		date: meeting.date,
		place: meeting.place,
		coming: meeting.attending.filter((one) => one.coming).length,
		bags: new Set(meeting.bags.map((id) => state.bags.get(id)?.id ?? id)).size,
		calledOff: meeting.calledOff !== null,
		over: day !== null && asking.now > day.last,
		mine: said.length ? said.some((one) => one.coming) : null,
		planned: meeting.planned?.entry ?? ''
	};
}
