import { z } from 'zod';
import { idField, words } from '#server/http/fields.ts';
import { answer, bodyOf } from '../../../../answer.server.ts';
import { officerOf, seatOf } from '../../../../ask.server.ts';

const asked = z.discriminatedUnion('do', [
	z.object({ do: z.literal('rename'), member: idField, name: words }),
	z.object({ do: z.literal('leave'), member: idField })
]);

/** A member sets the own name or handle, or leaves; an officer does it for anyone. */
export const POST = answer(async (event) => {
	const seat = seatOf(event);
	const body = await bodyOf(event, asked);
	const by = body.member === seat.member ? seat : officerOf(event);
	const { office } = event.locals.app;
	if (body.do === 'rename') await office.rename(seat.club, body.member, body.name, by.member);
	else await office.leave(seat.club, body.member, by.member);
});
