import { idOrNothing, wordsOrNothing } from '#server/http/fields.ts';
import { formAction } from '../../../../answer.server.ts';
import { officerOf } from '../../../../ask.server.ts';

export const actions = {
	default: formAction(async (event, fields) => {
		const { club, member } = officerOf(event);
		const name = wordsOrNothing.parse(fields.name ?? '');
		const guardian = wordsOrNothing.parse(fields.guardian ?? '');
		const room = idOrNothing.parse(fields.room ?? '');
		const made = await event.locals.app.office.invite(club, { name, guardian, room }, member);
		const { code, expiresAt, token } = made;
		return { slip: { name, code, expiresAt, link: `${event.url.origin}/invitation/${token}` } };
	})
};
