/** The two cookies: who is signed in, and which browser this is. */
import type { Cookies } from '@sveltejs/kit';
import { browserCookie, sessionCookie, type Sessions } from '#server/auth/session.ts';
import { newToken } from '#server/auth/token.ts';

/** A token as `newToken` makes it; anything else in the cookie is replaced. */
const tokenShape = /^[A-Za-z0-9_-]{32}$/;

/** The browser's token, made on first need and kept as long as browsers allow (400 days, renewed with each use). */
export function browserToken(cookies: Cookies, sessions: Sessions, secure: boolean): string {
	const held = cookies.get(browserCookie);
	return held && tokenShape.test(held) ? held : setBrowserToken(cookies, sessions, secure, newToken());
}

function setBrowserToken(cookies: Cookies, sessions: Sessions, secure: boolean, token: string): string {
	cookies.set(browserCookie, token, sessions.cookie(secure));
	return token;
}

export function setSession(cookies: Cookies, sessions: Sessions, secure: boolean, secret: string): void {
	cookies.set(sessionCookie, secret, sessions.cookie(secure));
	const browser = cookies.get(browserCookie);
	if (browser) setBrowserToken(cookies, sessions, secure, browser);
}

export function dropSession(cookies: Cookies, sessions: Sessions, secure: boolean): void {
	const { maxAge: _, ...attributes } = sessions.cookie(secure);
	cookies.delete(sessionCookie, attributes);
}
