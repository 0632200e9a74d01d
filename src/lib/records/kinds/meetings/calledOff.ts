/** A meeting is called off. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { said } from '../../said.ts';
import { id } from '../../shapes.ts';

export const meetingCalledOff = defineKind({
	kind: 'meeting/calledOff',
	version: 1,
	nature: 'decision',
	audience: 'club',
	decides: 'officer',
	schema: z.object({ meeting: id }),
	things: (body) => [{ type: 'meeting', id: body.meeting }],
	apply: {
		meeting(meeting, told) {
			meeting.calledOff = said(told);
		}
	},
	sentence: (body, names) => `${names.meeting(body.meeting)} was called off.`
});
