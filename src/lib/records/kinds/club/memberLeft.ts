/** A member left: the history stays, under a handle. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { said } from '../../said.ts';
import { id, shortText } from '../../shapes.ts';

export const memberLeft = defineKind({
	kind: 'club/memberLeft',
	version: 1,
	nature: 'server',
	audience: 'club',
	/** `name`: what the member is shown as from now on, for example "former member 12". */
	schema: z.object({ member: id, name: shortText, askedBy: z.nullable(id) }),
	things: (body) => [{ type: 'member', id: body.member }],
	apply: {
		member(member, told) {
			member.name = told.body.name;
			member.left = said(told);
			member.roles = [];
			member.rooms = [];
		}
	},
	sentence: (body) => `${body.name} left the club.`
});
