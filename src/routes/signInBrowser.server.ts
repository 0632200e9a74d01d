import { redirect, type RequestEvent } from '@sveltejs/kit';
import type { SignedInNow } from '#server/auth/accounts.ts';
import { sessionCookie } from '#server/auth/session.ts';
import { safeNext } from './ask.server.ts';
import { setSession } from './cookies.server.ts';

/** Puts a new session into the browser's cookie, ends the one that was there, and goes on to the club. */
export async function signInBrowser(
	event: RequestEvent,
	now: SignedInNow,
	next: string | null = null
): Promise<never> {
	const { app, secure } = event.locals;
	const before = event.cookies.get(sessionCookie);
	if (before) await app.sessions.end(before);
	setSession(event.cookies, app.sessions, secure, now.secret);
	if (next !== null) redirect(303, safeNext(next));
	const clubs = (await app.sessions.read(now.secret))?.clubs ?? [];
	const club = now.club ?? (clubs.length === 1 ? clubs[0]?.club : undefined);
	redirect(303, club === undefined ? '/' : `/c/${encodeURIComponent(club)}`);
}
