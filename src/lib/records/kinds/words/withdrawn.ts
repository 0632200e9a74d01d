/** What was written is taken back, with a reason. The entries taken back stand in `corrects`. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { longText } from '../../shapes.ts';

export const wordWithdrawn = defineKind({
	kind: 'word/withdrawn',
	version: 1,
	nature: 'tap',
	audience: 'club',
	schema: z.object({ reason: longText }),
	things: () => [],
	apply: {},
	sentence: (body) => `Taken back${body.reason ? `: ${body.reason}` : ''}.`
});
