/** Day-7 count: how many of a bag's fish live a week later. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { said } from '../../said.ts';
import { howMany, id, longText } from '../../shapes.ts';

export const bagDayCount = defineKind({
	kind: 'bag/dayCount',
	version: 1,
	nature: 'fact',
	audience: 'club',
	schema: z.object({ bag: id, room: z.nullable(id), alive: howMany, note: longText }),
	things: (body) => [{ type: 'bag', id: body.bag }],
	rooms: (body) => (body.room ? [body.room] : []),
	apply: {
		bag(bag, told) {
			bag.dayCounts.push({ ...said(told), alive: told.body.alive, note: told.body.note });
		}
	},
	sentence: (body, names) => `${names.bag(body.bag)}, a week later: ${body.alive} alive.`
});
