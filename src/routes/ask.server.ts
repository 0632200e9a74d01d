/** Who asks, for pages and for the interface: the same checks, in one place. */
import { redirect, type RequestEvent } from '@sveltejs/kit';
import { AppError } from '#server/appError.ts';
import { isOfficer, seatIn, type Seat, type SignedIn } from '#server/auth/session.ts';
import type { Caller } from '#server/auth/accounts.ts';

type Asking = Pick<RequestEvent, 'locals' | 'params' | 'url'>;

/** @throws AppError `signed-out` */
export function signedIn({ locals }: Pick<Asking, 'locals'>): SignedIn {
	if (!locals.session) throw new AppError('signed-out');
	return locals.session;
}

/** The asker's seat in the club of the address. @throws AppError `signed-out`, `not-allowed` (also for no such club) */
export function seatOf(event: Asking): Seat {
	const seat = seatIn(signedIn(event), event.params.club ?? '');
	if (!seat) throw new AppError('not-allowed');
	return seat;
}

/** @throws AppError `not-allowed` for everyone but officers */
export function officerOf(event: Asking): Seat {
	const seat = seatOf(event);
	if (!isOfficer(seat)) throw new AppError('not-allowed', seat.member);
	return seat;
}

/** For pages: sends somebody who is signed out to sign in and back again. */
export function signedInOrSent(event: Asking): SignedIn {
	if (!event.locals.session) redirect(303, `/sign-in?to=${encodeURIComponent(event.url.pathname)}`);
	return event.locals.session;
}

/** Where a try to get in comes from. */
export function callerOf(event: Pick<RequestEvent, 'locals' | 'getClientAddress'>): Caller {
	let address = '';
	try {
		address = event.getClientAddress();
	} catch {
		// The proxy in front left its header out: all such callers count as one.
	}
	return { address, browser: event.locals.browser };
}

/** A path of this site to go to after signing in; anything else leads to the start page. */
export function safeNext(next: string | null): string {
	return next && /^\/(?![/\\])[^\\\s]*$/.test(next) ? next : '/';
}
