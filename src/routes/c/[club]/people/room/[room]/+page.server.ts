import { error } from '@sveltejs/kit';
import { idField, regionField, words, wordsOrNothing } from '#server/http/fields.ts';
import { formAction } from '../../../../../answer.server.ts';
import { officerOf } from '../../../../../ask.server.ts';

export const load = async ({ parent, params }) => {
	const { rooms, isOfficer } = await parent();
	const room = rooms.find(({ id }) => id === params.room);
	if (!isOfficer) error(403, 'not allowed');
	if (!room) error(404, 'not found');
	return { room };
};

const some = (id: string | undefined) => [idField.parse(id)];

export const actions = {
	describe: formAction(async (event, fields) => {
		const { club, member } = officerOf(event);
		const name = words.parse(fields.name);
		const place = {
			region: regionField.parse(fields.region ?? ''),
			house: wordsOrNothing.parse(fields.house ?? '')
		};
		await event.locals.app.office.describeRoom(club, event.params.room!, { name, ...place }, member);
		return { done: 'Kept.' };
	}),
	add: formAction(async (event, { keeper }) => {
		const { club, member } = officerOf(event);
		await event.locals.app.office.changeKeepers(
			club,
			event.params.room!,
			{ add: some(keeper), remove: [] },
			member
		);
		return { done: 'The keeper is added.' };
	}),
	remove: formAction(async (event, { keeper }) => {
		const { club, member } = officerOf(event);
		await event.locals.app.office.changeKeepers(
			club,
			event.params.room!,
			{ add: [], remove: some(keeper) },
			member
		);
		return { done: 'The keeper is removed.' };
	})
};
