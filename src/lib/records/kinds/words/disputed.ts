/** Somebody doubts what was written: both statements stand side by side until it is decided. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { id, longText } from '../../shapes.ts';

export const wordDisputed = defineKind({
	kind: 'word/disputed',
	version: 1,
	nature: 'tap',
	audience: 'club',
	schema: z.object({ entry: id, reason: longText }),
	things: () => [],
	speaksOf: (body) => [body.entry],
	apply: {},
	sentence: (body, names) => `Disputed: ${names.entry(body.entry)} ${body.reason}`
});
