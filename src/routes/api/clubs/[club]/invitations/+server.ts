import { z } from 'zod';
import { idField, wordsOrNothing } from '#server/http/fields.ts';
import { answer, bodyOf } from '../../../../answer.server.ts';
import { officerOf } from '../../../../ask.server.ts';

const asked = z.discriminatedUnion('for', [
	z.object({
		for: z.literal('newcomer'),
		name: wordsOrNothing,
		room: z.nullable(idField).default(null),
		guardian: wordsOrNothing.default('')
	}),
	z.object({ for: z.literal('member'), member: idField })
]);

/** A link that works once: for somebody new, or for a member who cannot sign in. Shown this once only. */
export const POST = answer(async (event) => {
	const { club, member } = officerOf(event);
	const body = await bodyOf(event, asked);
	const { office } = event.locals.app;
	const isNew = body.for === 'newcomer';
	const made = isNew
		? await office.invite(club, body, member)
		: await office.signInLink(club, body.member, member);
	const link = `${event.url.origin}/${isNew ? 'invitation' : 'sign-in-link'}/${made.token}`;
	return { link, code: made.code, expiresAt: made.expiresAt };
});
