/** A member joined the club. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { said } from '../../said.ts';
import { id, shortText } from '../../shapes.ts';

export const memberJoined = defineKind({
	kind: 'club/memberJoined',
	version: 1,
	nature: 'server',
	audience: 'club',
	/** `name`: handle or name, as the member wants to be shown. */
	schema: z.object({ member: id, name: shortText, askedBy: z.nullable(id) }),
	things: (body) => [{ type: 'member', id: body.member }],
	apply: {
		member(member, told) {
			member.name = told.body.name;
			member.joined = said(told);
			member.left = null;
		}
	},
	sentence: (body) => `${body.name} joined the club.`
});
