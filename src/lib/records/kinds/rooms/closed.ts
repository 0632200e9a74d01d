/** A whole room is closed: nothing in or out. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { said } from '../../said.ts';
import { id, longText } from '../../shapes.ts';

export const roomClosed = defineKind({
	kind: 'room/closed',
	version: 1,
	nature: 'decision',
	audience: 'club',
	decides: 'room',
	schema: z.object({ room: id, reason: longText }),
	things: (body) => [{ type: 'room', id: body.room }],
	rooms: (body) => [body.room],
	apply: {
		room(room, told) {
			room.closed = { ...said(told), reason: told.body.reason };
		}
	},
	sentence: (body, names) => `${names.room(body.room)} was closed: nothing in or out.`
});
