import { redirect } from '@sveltejs/kit';
import { idField, regionField, words, wordsOrNothing } from '#server/http/fields.ts';
import { formAction } from '../../../../answer.server.ts';
import { officerOf } from '../../../../ask.server.ts';

export const actions = {
	default: formAction(async (event, fields) => {
		const { club, member } = officerOf(event);
		const room = {
			name: words.parse(fields.name),
			region: regionField.parse(fields.region ?? ''),
			house: wordsOrNothing.parse(fields.house ?? ''),
			keepers: [idField.parse(fields.keeper)]
		};
		const id = await event.locals.app.office.openRoom(club, room, member);
		redirect(303, `/c/${encodeURIComponent(club)}/people/room/${id}`);
	})
};
