/** A group gets a name and a place in the room. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { id, shortText } from '../../shapes.ts';

export const groupNamed = defineKind({
	kind: 'group/named',
	version: 1,
	nature: 'fact',
	audience: 'club',
	schema: z.object({ group: id, room: z.nullable(id), name: shortText, tank: shortText }),
	things: (body) => [{ type: 'group', id: body.group }],
	rooms: (body) => (body.room ? [body.room] : []),
	apply: {
		group(group, told) {
			group.name = told.body.name;
			group.tank = told.body.tank;
		}
	},
	sentence: (body) => `The group is called ${body.name}${body.tank ? `, ${body.tank}` : ''}.`
});
