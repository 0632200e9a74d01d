/** The club opens its record, with its name and time zone. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { said } from '../../said.ts';
import { id, shortText } from '../../shapes.ts';

export const clubOpened = defineKind({
	kind: 'club/opened',
	version: 1,
	nature: 'server',
	audience: 'club',
	schema: z.object({
		club: id,
		name: shortText,
		timeZone: shortText,
		region: shortText,
		askedBy: z.nullable(id)
	}),
	things: (body) => [{ type: 'club', id: body.club }],
	apply: {
		club(club, told) {
			club.name = told.body.name;
			club.timeZone = told.body.timeZone;
			club.region = told.body.region;
			club.opened = said(told);
		}
	},
	sentence: (body) => `The club ${body.name} opened its record.`
});
