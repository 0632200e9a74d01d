/** A room asks for a line. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { said } from '../../said.ts';
import { id, longText } from '../../shapes.ts';

export const lineWanted = defineKind({
	kind: 'line/wanted',
	version: 1,
	nature: 'decision',
	audience: 'club',
	decides: 'room',
	schema: z.object({ line: id, room: id, note: longText }),
	things: (body) => [{ type: 'room', id: body.room }],
	rooms: (body) => [body.room],
	line: (body) => body.line,
	apply: {
		room(room, told) {
			room.wants.push({
				...said(told),
				line: told.body.line,
				room: room.id,
				note: told.body.note,
				ended: null
			});
		}
	},
	sentence: (body, names) => `${names.room(body.room)} asks for ${names.line(body.line)}.`
});
