import { error, redirect } from '@sveltejs/kit';
import { idField, idOrNothing, roleField, words } from '#server/http/fields.ts';
import { formAction } from '../../../../../answer.server.ts';
import { officerOf } from '../../../../../ask.server.ts';

export const load = async ({ parent, params }) => {
	const { members, isOfficer } = await parent();
	const member = members.find(({ id }) => id === params.member);
	if (!isOfficer) error(403, 'not allowed');
	if (!member) error(404, 'not found');
	return { member };
};

export const actions = {
	rename: formAction(async (event, { name = '' }) => {
		const { club, member } = officerOf(event);
		await event.locals.app.office.rename(club, event.params.member!, words.parse(name), member);
		return { done: 'The name is changed.' };
	}),
	give: formAction(async (event, fields) => {
		const { club, member } = officerOf(event);
		const role = roleField.parse(fields.role);
		const of = role === 'officer' ? null : idField.parse(fields.of);
		await event.locals.app.office.giveRole(club, { member: event.params.member!, role, of }, member);
		return { done: 'The role is given.' };
	}),
	end: formAction(async (event, fields) => {
		const { club, member } = officerOf(event);
		const role = {
			member: event.params.member!,
			role: roleField.parse(fields.role),
			of: idOrNothing.parse(fields.of ?? '')
		};
		await event.locals.app.office.endRole(club, role, member);
		return { done: 'The role has ended.' };
	}),
	link: formAction(async (event) => {
		const { club, member } = officerOf(event);
		const { token, code, expiresAt } = await event.locals.app.office.signInLink(
			club,
			event.params.member!,
			member
		);
		return { slip: { code, expiresAt, link: `${event.url.origin}/sign-in-link/${token}` } };
	}),
	leave: formAction(async (event) => {
		const { club, member } = officerOf(event);
		await event.locals.app.office.leave(club, event.params.member!, member);
		redirect(303, `/c/${encodeURIComponent(club)}/people`);
	})
};
