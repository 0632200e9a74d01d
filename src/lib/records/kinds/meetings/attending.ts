/** A room says whether somebody comes to a meeting. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { said } from '../../said.ts';
import { id } from '../../shapes.ts';

export const meetingAttending = defineKind({
	kind: 'meeting/attending',
	version: 1,
	nature: 'fact',
	audience: 'club',
	schema: z.object({ meeting: id, room: id, coming: z.boolean() }),
	things: (body) => [{ type: 'meeting', id: body.meeting }],
	rooms: (body) => [body.room],
	meeting: (body) => body.meeting,
	apply: {
		meeting(meeting, told) {
			const { room, coming } = told.body;
			meeting.attending = meeting.attending.filter((answer) => answer.room !== room);
			meeting.attending.push({ ...said(told), room, coming });
		}
	},
	sentence: (body, names) =>
		`${names.room(body.room)} ${body.coming ? 'comes' : 'does not come'} to ${names.meeting(body.meeting)}.`
});
