import type { ThingId } from '#records/entry.ts';
import { namesOf } from '#records/names.ts';
import type { ClubState } from '#records/state.ts';
import { dayOfMeeting } from '../meetings/meetingNow.ts';

export interface MeetingChoice {
	readonly id: ThingId;
	readonly name: string;
	readonly date: string;
	/** Rooms that said that they come. */
	readonly coming: readonly ThingId[];
}

/** Meetings from today on that were not called off, the next one first. */
export function meetingsAhead(state: ClubState, now: number): MeetingChoice[] {
	const names = namesOf(state, null);
	return [...state.meetings.values()]
		.filter((one) => one.known && !one.calledOff && (dayOfMeeting(state, one)?.last ?? Infinity) >= now)
		.map((one) => ({
			id: one.id,
			name: names.meeting(one.id),
			date: one.date,
			coming: one.attending.filter((said) => said.coming).map((said) => said.room)
		}))
		.sort((a, b) => (a.date || '9999').localeCompare(b.date || '9999') || (a.id < b.id ? -1 : 1));
}
