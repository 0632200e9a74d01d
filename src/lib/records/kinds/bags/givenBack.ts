/** A bag was given back unopened: its fish are with the giver again. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { said } from '../../said.ts';
import { id, longText } from '../../shapes.ts';

export const bagGivenBack = defineKind({
	kind: 'bag/givenBack',
	version: 1,
	nature: 'fact',
	audience: 'club',
	schema: z.object({ bag: id, room: z.nullable(id), note: longText }),
	things: (body) => [{ type: 'bag', id: body.bag }],
	rooms: (body) => (body.room ? [body.room] : []),
	apply: {
		bag(bag, told) {
			bag.givenBack = said(told);
		}
	},
	sentence: (body, names) => `${names.bag(body.bag)} was given back unopened.`
});
