/** A closed room is open again. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { id } from '../../shapes.ts';

export const roomReopened = defineKind({
	kind: 'room/reopened',
	version: 1,
	nature: 'decision',
	audience: 'club',
	decides: 'room',
	schema: z.object({ room: id }),
	things: (body) => [{ type: 'room', id: body.room }],
	rooms: (body) => [body.room],
	apply: {
		room(room) {
			room.closed = null;
		}
	},
	sentence: (body, names) => `${names.room(body.room)} is open again.`
});
