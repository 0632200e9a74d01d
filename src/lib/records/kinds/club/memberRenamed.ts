/** A member is shown under another name or handle. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { id, shortText } from '../../shapes.ts';

export const memberRenamed = defineKind({
	kind: 'club/memberRenamed',
	version: 1,
	nature: 'server',
	audience: 'club',
	schema: z.object({ member: id, name: shortText, askedBy: z.nullable(id) }),
	things: (body) => [{ type: 'member', id: body.member }],
	apply: {
		member(member, told) {
			member.name = told.body.name;
		}
	},
	sentence: (body) => `A member is now shown as ${body.name}.`
});
