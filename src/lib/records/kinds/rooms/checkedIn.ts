/** "Still have them?": a room says whether it holds a line. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { said } from '../../said.ts';
import { id, longText } from '../../shapes.ts';

const words = { yes: 'still has', no: 'no longer has', unsure: 'is not sure that it has' };
const breeding = { yes: ', and they breed', no: ', and they do not breed', unknown: '' };

export const roomCheckedIn = defineKind({
	kind: 'room/checkedIn',
	version: 1,
	nature: 'fact',
	audience: 'club',
	schema: z.object({
		room: id,
		line: id,
		has: z.enum(['yes', 'no', 'unsure']),
		breeding: z.enum(['yes', 'no', 'unknown']),
		note: longText
	}),
	things: (body) => [
		{ type: 'room', id: body.room },
		{ type: 'line', id: body.line }
	],
	places: (body) => (body.has === 'yes' ? [[body.line, body.room]] : []),
	rooms: (body) => [body.room],
	line: (body) => body.line,
	apply: {
		room(room, told) {
			const { line, has, breeding, note } = told.body;
			room.checks.push({ ...said(told), line, has, breeding, note });
		},
		line() {
			// The line's page reads the checks from its rooms; the entry stands in the line's history.
		}
	},
	sentence: (body, names) =>
		`${names.room(body.room)} ${words[body.has]} ${names.line(body.line)}${breeding[body.breeding]}.`
});
