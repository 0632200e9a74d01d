/** Something got mixed: a jumped fish, an unknown male, a shared net. Nobody is blamed. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { said } from '../../said.ts';
import { id, longText } from '../../shapes.ts';

export const groupMixed = defineKind({
	kind: 'group/mixed',
	version: 1,
	nature: 'fact',
	audience: 'club',
	schema: z.object({
		group: id,
		room: z.nullable(id),
		line: z.nullable(id),
		sort: z.enum(['jumped', 'unknown male', 'shared net', 'look-alike', 'other']),
		what: longText
	}),
	things: (body) => [
		{ type: 'group', id: body.group },
		...(body.line ? [{ type: 'line' as const, id: body.line }] : [])
	],
	rooms: (body) => (body.room ? [body.room] : []),
	line: (body) => body.line,
	apply: {
		group(group, told) {
			const { sort, what } = told.body;
			group.mixes.push({ ...said(told), group: group.id, sort, what });
		},
		line(line, told) {
			const { group, sort, what } = told.body;
			line.mixes.push({ ...said(told), group, sort, what });
		}
	},
	sentence: (body, names) => `Suspected mix in ${names.group(body.group)}: ${body.what || body.sort}.`
});
