/** Fish move from one group to another of the same room. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { said } from '../../said.ts';
import { addFish, fishText, noFish } from '../../fishCount.ts';
import { fish, id } from '../../shapes.ts';

export const groupMoved = defineKind({
	kind: 'group/moved',
	version: 1,
	nature: 'fact',
	audience: 'club',
	partInEach: true,
	schema: z.object({ from: id, to: id, room: z.nullable(id), fish }),
	things: (body) => [
		{ type: 'group', id: body.from },
		{ type: 'group', id: body.to }
	],
	rooms: (body) => (body.room ? [body.room] : []),
	apply: {
		group(group, told) {
			const { from, to, fish } = told.body;
			const gain = group.id === to;
			group.changes.push({
				...said(told),
				fish: gain ? fish : addFish(noFish, fish, -1),
				why: 'moved',
				cause: '',
				bag: null,
				other: gain ? from : to
			});
		}
	},
	sentence: (body, names) =>
		`${fishText(body.fish)} moved from ${names.group(body.from)} to ${names.group(body.to)}.`
});
