/** A person has looked at what two sides said differently about a bag. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { said } from '../../said.ts';
import { id, longText } from '../../shapes.ts';

export const bagSettled = defineKind({
	kind: 'bag/settled',
	version: 1,
	nature: 'fact',
	audience: 'club',
	schema: z.object({ bag: id, room: z.nullable(id), note: longText }),
	things: (body) => [{ type: 'bag', id: body.bag }],
	rooms: (body) => (body.room ? [body.room] : []),
	apply: {
		bag(bag, told) {
			bag.settled = { ...said(told), note: told.body.note };
		}
	},
	sentence: (body, names) =>
		`The differences on ${names.bag(body.bag)} were looked at${body.note ? `: ${body.note}` : ''}.`
});
