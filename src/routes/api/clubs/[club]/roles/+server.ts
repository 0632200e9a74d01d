import { z } from 'zod';
import { idField, roleField } from '#server/http/fields.ts';
import { answer, bodyOf } from '../../../../answer.server.ts';
import { officerOf } from '../../../../ask.server.ts';

const asked = z.object({
	do: z.enum(['give', 'end']),
	member: idField,
	role: roleField,
	of: z.nullable(idField)
});

export const POST = answer(async (event) => {
	const { club, member: by } = officerOf(event);
	const { do: act, member, role, of } = await bodyOf(event, asked);
	const { office } = event.locals.app;
	if (act === 'give') await office.giveRole(club, { member, role, of }, by);
	else await office.endRole(club, { member, role, of }, by);
});
