import { dayOfMeeting } from '#club/meetings/meetingNow.ts';
import { happened } from '#records/happened.ts';
import type { ClubState } from '#records/state.ts';
import type { SeasonSettings } from './seasonSettings.ts';

/** When the bags would move: the meeting's day, else the last day that was set, else now; ms since 1970. */
export function planDay(
	state: ClubState,
	{ meeting, until }: Pick<SeasonSettings, 'meeting' | 'until'>,
	now: number
): number {
	const there = meeting ? state.meetings.get(meeting) : undefined;
	const day = there ? dayOfMeeting(state, there)?.first : undefined;
	const last = until ? happened(until, state.club.timeZone || 'UTC')?.last : undefined;
	return Math.max(now, day ?? last ?? now);
}
