/** A meeting is planned or set anew. */
import { z } from 'zod/mini';
import { dayText } from '../../dayText.ts';
import { defineKind } from '../../kind.ts';
import { said } from '../../said.ts';
import { dateOrNothing, id, shortText } from '../../shapes.ts';

export const meetingPlanned = defineKind({
	kind: 'meeting/planned',
	version: 1,
	nature: 'decision',
	audience: 'club',
	decides: 'officer',
	schema: z.object({ meeting: id, name: shortText, date: dateOrNothing, place: shortText }),
	things: (body) => [{ type: 'meeting', id: body.meeting }],
	apply: {
		meeting(meeting, told) {
			Object.assign(meeting, { name: told.body.name, date: told.body.date, place: told.body.place });
			meeting.planned = said(told);
			meeting.calledOff = null;
		}
	},
	sentence: (body) => `Meeting: ${body.name}${body.date ? `, ${dayText(body.date)}` : ''}.`
});
