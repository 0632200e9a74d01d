/** The coordinator or an officer decides a dispute: the disputed entry stands, or it does not. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { id, longText } from '../../shapes.ts';

export const wordDecided = defineKind({
	kind: 'word/decided',
	version: 1,
	nature: 'decision',
	audience: 'club',
	decides: 'dispute',
	/** `dispute`: the disputing entry; `of`: the entry that it doubts. */
	schema: z.object({ dispute: id, of: id, stands: z.boolean(), reason: longText }),
	things: () => [],
	speaksOf: (body) => [body.dispute, body.of],
	apply: {},
	sentence: (body, names) =>
		`Decided: ${names.entry(body.of)} ${body.stands ? 'stands' : 'does not stand'}. ${body.reason}`
});
