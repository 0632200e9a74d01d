/** A member gives up a role. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { id } from '../../shapes.ts';

export const roleEnded = defineKind({
	kind: 'club/roleEnded',
	version: 1,
	nature: 'server',
	audience: 'club',
	schema: z.object({
		member: id,
		role: z.enum(['officer', 'coordinator', 'deputy', 'runner']),
		of: z.nullable(id),
		askedBy: z.nullable(id)
	}),
	things: (body) => [{ type: 'member', id: body.member }],
	apply: {
		member(member, told) {
			const { role, of } = told.body;
			member.roles = member.roles.filter((held) => !(held.role === role && held.of === of));
		}
	},
	sentence(body, names) {
		const line = body.of && body.role !== 'runner' ? ` of ${names.line(body.of)}` : '';
		return `${names.member(body.member)} is no longer ${body.role}${line}.`;
	}
});
