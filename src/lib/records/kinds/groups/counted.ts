/** Somebody counted a group, or said about how many there are. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { countSaid } from '../../said.ts';
import { fishText } from '../../fishCount.ts';
import { certainty, fish, id } from '../../shapes.ts';

export const groupCounted = defineKind({
	kind: 'group/counted',
	version: 1,
	nature: 'fact',
	audience: 'club',
	schema: z.object({ group: id, room: z.nullable(id), fish, certainty }),
	things: (body) => [{ type: 'group', id: body.group }],
	rooms: (body) => (body.room ? [body.room] : []),
	apply: {
		group(group, told) {
			group.counts.push(countSaid(told, told.body.fish, told.body.certainty));
		}
	},
	sentence: (body, names) =>
		`${names.group(body.group)}: ${body.certainty === 'counted' ? '' : 'about '}${fishText(body.fish)}.`
});
