/** Eggs are stored in damp peat: an egg bag, with the days to check and to wet it. An egg bag is a holding. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { said, stageSaid } from '../../said.ts';
import { dateOrNothing, id, shortText } from '../../shapes.ts';

export const groupEggsStored = defineKind({
	kind: 'group/eggsStored',
	version: 1,
	nature: 'fact',
	audience: 'club',
	schema: z.object({
		group: id,
		room: z.nullable(id),
		label: shortText,
		checkDue: dateOrNothing,
		wetDue: dateOrNothing
	}),
	things: (body) => [{ type: 'group', id: body.group }],
	rooms: (body) => (body.room ? [body.room] : []),
	apply: {
		group(group, told) {
			const { label, checkDue, wetDue } = told.body;
			group.eggBag = { ...said(told), label, checkDue, wetDue };
			group.stages.push(stageSaid(told, 'eggs in peat'));
		}
	},
	sentence: (body, names) =>
		`Eggs of ${names.group(body.group)} are in peat${body.wetDue ? `, to be wetted ${body.wetDue}` : ''}.`
});
