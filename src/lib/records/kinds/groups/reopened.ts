/** A closed tank is open again. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { id } from '../../shapes.ts';

export const groupReopened = defineKind({
	kind: 'group/reopened',
	version: 1,
	nature: 'decision',
	audience: 'club',
	decides: 'room',
	schema: z.object({ group: id, room: z.nullable(id) }),
	things: (body) => [{ type: 'group', id: body.group }],
	rooms: (body) => (body.room ? [body.room] : []),
	apply: {
		group(group) {
			group.closed = null;
		}
	},
	sentence: (body, names) => `The tank of ${names.group(body.group)} is open again.`
});
