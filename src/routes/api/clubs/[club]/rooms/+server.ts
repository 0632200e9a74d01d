import { z } from 'zod';
import { idField, regionField, words, wordsOrNothing } from '#server/http/fields.ts';
import { answer, bodyOf } from '../../../../answer.server.ts';
import { officerOf, seatOf } from '../../../../ask.server.ts';

const room = { name: words, region: regionField, house: wordsOrNothing };
const asked = z.discriminatedUnion('do', [
	z.object({ do: z.literal('open'), ...room, keepers: z.array(idField).min(1).max(20) }),
	z.object({ do: z.literal('describe'), room: idField, ...room }),
	z.object({ do: z.literal('share-words'), room: idField, epoch: idField })
]);

/** Officers open and describe rooms; a keeper lets those who keep the room now read its earlier private words. */
export const POST = answer(async (event) => {
	const body = await bodyOf(event, asked);
	const { office } = event.locals.app;
	const { club, member } = body.do === 'share-words' ? seatOf(event) : officerOf(event);
	if (body.do === 'open') return { room: await office.openRoom(club, body, member) };
	if (body.do === 'describe') await office.describeRoom(club, body.room, body, member);
	else await office.shareEpoch(club, body.room, body.epoch, member);
	return { ok: true };
});
