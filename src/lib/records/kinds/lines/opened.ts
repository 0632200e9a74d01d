/** A line is opened: what it is, where it is from, in the words it was received with. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { said } from '../../said.ts';
import { fishGroup, id, shortText } from '../../shapes.ts';

/** All fields of a line's definition; '' = not known. */
export const lineDefinition = z.object({
	/** Short, speakable, never used again: "HARBOUR-2". */
	code: shortText,
	name: shortText,
	kind: z.enum(['conservation', 'strain']),
	fishGroup,
	/** Exactly as received; then as tidied. */
	taxonVerbatim: shortText,
	taxonTidy: shortText,
	localityVerbatim: shortText,
	localityCode: shortText,
	source: shortText,
	movement: z.enum(['none', 'listed', 'native', 'restricted'])
});

export const lineOpened = defineKind({
	kind: 'line/opened',
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
			line.opened = said(told);
		}
	},
	sentence: (body) => `The line ${body.definition.name} was opened.`
});
