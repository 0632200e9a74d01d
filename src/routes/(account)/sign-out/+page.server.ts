import { redirect } from '@sveltejs/kit';
import { sessionCookie } from '#server/auth/session.ts';
import { dropSession } from '../../cookies.server.ts';

export const load = ({ locals }) => ({
	seats: (locals.session?.clubs ?? []).map(({ club, clubName, member, device }) => ({
		club,
		clubName,
		member,
		device
	}))
});

export const actions = {
	default: async ({ cookies, locals }) => {
		const secret = cookies.get(sessionCookie);
		if (secret) await locals.app.sessions.end(secret);
		dropSession(cookies, locals.app.sessions, locals.secure);
		redirect(303, '/');
	}
};
