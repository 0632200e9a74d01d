import { happened } from '#records/happened.ts';
import type { ClubState, Meeting } from '#records/state.ts';

/** First and last moment of a meeting's day in the club's time zone; null when no day is set. */
export function dayOfMeeting(
	state: ClubState,
	meeting: Meeting
): { readonly first: number; readonly last: number } | null {
	return meeting.date ? happened(meeting.date, state.club.timeZone || 'UTC') : null;
}

/** A meeting goes on into the night: bags logged at the tables after midnight belong to it (own choice). */
const afterMidnightMs = 3 * 3_600_000;

/** The meeting that goes on now, if one does. */
export function meetingNow(state: ClubState, now: number): Meeting | null {
	for (const meeting of state.meetings.values()) {
		const day = dayOfMeeting(state, meeting);
		if (day && !meeting.calledOff && now >= day.first && now <= day.last + afterMidnightMs) return meeting;
	}
	return null;
}
