import { z } from 'zod';
import { idField } from '#server/http/fields.ts';
import { answer, bodyOf } from '../../../../answer.server.ts';
import { officerOf } from '../../../../ask.server.ts';

const some = z.array(idField).max(20).default([]);
const asked = z.object({ room: idField, add: some, remove: some });

export const POST = answer(async (event) => {
	const { club, member } = officerOf(event);
	const { room, add, remove } = await bodyOf(event, asked);
	await event.locals.app.office.changeKeepers(club, room, { add, remove }, member);
});
