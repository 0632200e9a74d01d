/** The line's rules: how many rooms are enough, how long a check holds, what never to cross with. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { said } from '../../said.ts';
import { id, shortText } from '../../shapes.ts';

const days = z.int().check(z.gte(1), z.lte(3650));

export const lineRulesSet = defineKind({
	kind: 'line/rulesSet',
	version: 1,
	nature: 'decision',
	audience: 'club',
	decides: 'line',
	schema: z.object({
		line: id,
		rules: z.object({
			/** Confirmed rooms that are enough. */
			targetRooms: z.int().check(z.gte(1), z.lte(100)),
			/** Days for which a check holds. */
			confirmedDays: days,
			/** Days after which it visibly ages. */
			ageingDays: days,
			neverCrossWith: shortText,
			spareToPublic: z.boolean()
		})
	}),
	things: (body) => [{ type: 'line', id: body.line }],
	line: (body) => body.line,
	apply: {
		line(line, told) {
			line.rules = { ...told.body.rules };
			line.rulesSaid = said(told);
		}
	},
	sentence: (body, names) =>
		`The rules of ${names.line(body.line)} were set: ${body.rules.targetRooms} rooms are the aim.`
});
