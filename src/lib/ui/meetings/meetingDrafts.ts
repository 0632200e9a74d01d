/** What is written about a meeting. */
import type { Draft, ThingId } from '#records/entry.ts';

export interface MeetingSaid {
	readonly meeting: ThingId;
	readonly name: string;
	/** ISO date; '' = not set yet. */
	readonly date: string;
	readonly place: string;
}

export function planned(said: MeetingSaid, happened: string): Draft {
	return { kind: 'meeting/planned', happened, about: [said.meeting], body: { ...said } };
}

export function attending(meeting: ThingId, room: ThingId, coming: boolean, happened: string): Draft {
	return { kind: 'meeting/attending', happened, about: [meeting, room], body: { meeting, room, coming } };
}

export function meetingCalledOff(meeting: ThingId, happened: string): Draft {
	return { kind: 'meeting/calledOff', happened, about: [meeting], body: { meeting } };
}
