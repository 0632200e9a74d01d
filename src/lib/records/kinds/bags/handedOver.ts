/** A bag changed hands. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { said } from '../../said.ts';
import { id } from '../../shapes.ts';

export const bagHandedOver = defineKind({
	kind: 'bag/handedOver',
	version: 1,
	nature: 'fact',
	audience: 'club',
	asksWhoKeeps: true,
	schema: z.object({ bag: id, fromRoom: z.nullable(id), toRoom: z.nullable(id), meeting: z.nullable(id) }),
	things: (body) => [{ type: 'bag', id: body.bag }],
	places: (body) => [
		...(body.fromRoom ? [[body.bag, body.fromRoom] as const] : []),
		...(body.toRoom ? [[body.bag, body.toRoom] as const] : [])
	],
	meeting: (body) => body.meeting,
	apply: {
		bag(bag, told) {
			const { fromRoom, toRoom } = told.body;
			const side =
				fromRoom && told.keeps(fromRoom) ? 'giver' : toRoom && told.keeps(toRoom) ? 'receiver' : 'other';
			bag.handOvers.push({ ...said(told), side });
		}
	},
	sentence: (body, names) => `${names.bag(body.bag)} was handed over.`
});
