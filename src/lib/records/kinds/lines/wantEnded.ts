/** A room no longer asks for a line. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { said } from '../../said.ts';
import { id } from '../../shapes.ts';

export const lineWantEnded = defineKind({
	kind: 'line/wantEnded',
	version: 1,
	nature: 'decision',
	audience: 'club',
	decides: 'room',
	schema: z.object({ line: id, room: id }),
	things: (body) => [{ type: 'room', id: body.room }],
	rooms: (body) => [body.room],
	line: (body) => body.line,
	apply: {
		room(room, told) {
			for (const want of room.wants) if (want.line === told.body.line && !want.ended) want.ended = said(told);
		}
	},
	sentence: (body, names) => `${names.room(body.room)} no longer asks for ${names.line(body.line)}.`
});
