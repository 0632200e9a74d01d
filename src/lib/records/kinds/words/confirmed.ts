/** One tap: what somebody else told is so. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { id } from '../../shapes.ts';

export const wordConfirmed = defineKind({
	kind: 'word/confirmed',
	version: 1,
	nature: 'tap',
	audience: 'club',
	schema: z.object({ entry: id }),
	things: () => [],
	speaksOf: (body) => [body.entry],
	apply: {},
	sentence: (body, names) => `Confirmed: ${names.entry(body.entry)}`
});
