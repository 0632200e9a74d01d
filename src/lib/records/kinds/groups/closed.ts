/** A tank is closed: nothing in or out. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { said } from '../../said.ts';
import { id, longText } from '../../shapes.ts';

export const groupClosed = defineKind({
	kind: 'group/closed',
	version: 1,
	nature: 'decision',
	audience: 'club',
	decides: 'room',
	schema: z.object({ group: id, room: z.nullable(id), reason: longText }),
	things: (body) => [{ type: 'group', id: body.group }],
	rooms: (body) => (body.room ? [body.room] : []),
	apply: {
		group(group, told) {
			group.closed = { ...said(told), reason: told.body.reason };
		}
	},
	sentence: (body, names) => `The tank of ${names.group(body.group)} was closed: nothing in or out.`
});
