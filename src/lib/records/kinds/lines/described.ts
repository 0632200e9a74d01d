/** A line's definition is set anew. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { id } from '../../shapes.ts';
import { lineDefinition } from './opened.ts';

export const lineDescribed = defineKind({
	kind: 'line/described',
	version: 1,
	nature: 'decision',
	audience: 'club',
	decides: 'line',
	schema: z.object({ line: id, definition: lineDefinition }),
	things: (body) => [{ type: 'line', id: body.line }],
	line: (body) => body.line,
	apply: {
		line(line, told) {
			Object.assign(line, told.body.definition);
		}
	},
	sentence: (body) => `The line’s description was set anew: ${body.definition.name}.`
});
