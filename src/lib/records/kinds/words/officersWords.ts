/** Words for officers and coordinators: people not to pair, wishes, concerns. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { id, longText } from '../../shapes.ts';

export const officersWords = defineKind({
	kind: 'officers/words',
	version: 1,
	nature: 'private',
	audience: 'officers',
	schema: z.object({
		sort: z.enum(['concern', 'wish', 'not to be paired']),
		members: z.array(id).check(z.maxLength(10)),
		text: longText
	}),
	things: () => [],
	apply: {},
	sentence: (body, names) =>
		`${body.sort}: ${body.members.map((member) => names.member(member)).join(', ')}${body.text ? `. ${body.text}` : ''}`
});
