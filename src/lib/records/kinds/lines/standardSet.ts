/** The line standard: what a good fish is, and what the line throws. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { said } from '../../said.ts';
import { id, longText } from '../../shapes.ts';

export const lineStandardSet = defineKind({
	kind: 'line/standardSet',
	version: 1,
	nature: 'decision',
	audience: 'club',
	decides: 'line',
	schema: z.object({ line: id, text: longText, throws: longText }),
	things: (body) => [{ type: 'line', id: body.line }],
	line: (body) => body.line,
	apply: {
		line(line, told) {
			line.standard = { ...said(told), text: told.body.text, throws: told.body.throws };
		}
	},
	sentence: (body, names) => `The line standard of ${names.line(body.line)} was set.`
});
