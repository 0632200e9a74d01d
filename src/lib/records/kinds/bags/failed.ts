/** A bag did not get there: the fish died, were lost, or went elsewhere. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { said } from '../../said.ts';
import { id, longText } from '../../shapes.ts';

const words = { died: 'the fish died on the way', lost: 'it was lost', elsewhere: 'it went elsewhere' };

export const bagFailed = defineKind({
	kind: 'bag/failed',
	version: 1,
	nature: 'fact',
	audience: 'club',
	schema: z.object({
		bag: id,
		room: z.nullable(id),
		how: z.enum(['died', 'lost', 'elsewhere']),
		note: longText
	}),
	things: (body) => [{ type: 'bag', id: body.bag }],
	rooms: (body) => (body.room ? [body.room] : []),
	apply: {
		bag(bag, told) {
			bag.failed = { ...said(told), how: told.body.how, note: told.body.note };
		}
	},
	sentence: (body, names) => `${names.bag(body.bag)}: ${words[body.how]}.`
});
