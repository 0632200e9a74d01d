import { z } from 'zod';
import { idField } from '#server/http/fields.ts';
import { answer, bodyOf } from '../../../../answer.server.ts';
import { officerOf } from '../../../../ask.server.ts';

const asked = z.object({ ids: z.array(idField).min(1).max(200) });

/** Empties entries for good. What devices hold goes when they fetch the new edition; printed or saved copies stay. */
export const POST = answer(async (event) => {
	const { club } = officerOf(event);
	const { ids } = await bodyOf(event, asked);
	return { erased: await event.locals.app.ledger.erase(club, ids) };
});
