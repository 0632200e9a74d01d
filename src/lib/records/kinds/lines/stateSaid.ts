/** The coordinator's own word on a line: retired, lost, or kept after all. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { said } from '../../said.ts';
import { id, longText } from '../../shapes.ts';

export const lineStateSaid = defineKind({
	kind: 'line/stateSaid',
	version: 1,
	nature: 'decision',
	audience: 'club',
	decides: 'line',
	schema: z.object({ line: id, state: z.enum(['retired', 'lost', 'kept']), reason: longText }),
	things: (body) => [{ type: 'line', id: body.line }],
	line: (body) => body.line,
	apply: {
		line(line, told) {
			line.stateSaid = { ...said(told), state: told.body.state, reason: told.body.reason };
		}
	},
	sentence: (body, names) =>
		body.state === 'kept'
			? `${names.line(body.line)} is kept after all.`
			: `${names.line(body.line)} was called ${body.state}.`
});
