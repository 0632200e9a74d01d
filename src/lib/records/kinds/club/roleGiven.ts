/** A member takes on a role: officer, coordinator or deputy of a line, runner of a meeting. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { said } from '../../said.ts';
import { id } from '../../shapes.ts';

export const roleGiven = defineKind({
	kind: 'club/roleGiven',
	version: 1,
	nature: 'server',
	audience: 'club',
	/** `of`: the line of a coordinator or deputy, the meeting of a runner; null for officers. */
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
			member.roles.push({ role, of, since: said(told) });
		}
	},
	sentence(body, names) {
		const who = names.member(body.member);
		if (body.role === 'officer') return `${who} became an officer.`;
		if (body.role === 'runner') return `${who} runs the bags at ${names.meeting(body.of ?? '')}.`;
		return `${who} became ${body.role} of ${names.line(body.of ?? '')}.`;
	}
});
