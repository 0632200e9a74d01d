/**
 * Sessions.
 *
 * Model: a row of `session` for each sign-in (hash of the secret, account, browser, end). The secret is a cookie:
 * httpOnly, sameSite lax, path /, Secure when the page came over https. Read from the table on every request, its end
 * checked each time; a new one at every sign-in; all of an account's dropped when the password changes.
 * A second cookie, the browser's token, lives longer: with the member it gives the device, so that the same member on
 * the same browser is the same device again, and another member on it is another.
 * Threats answered: a stolen database (hashes only); a planted session (a new secret at sign-in); a session that
 * outlives a password, a membership or its end (nothing is cached); a page of another site (sameSite, and hooks
 * refuse foreign posts).
 */
import { v7 as newId } from 'uuid';
import type { Kysely } from 'kysely';
import type { Db } from '../club/tables.ts';
import type { DeviceId, MemberId } from '#records/entry.ts';
import type { RoleName } from '#records/state.ts';
import type { AccountTables } from './accountTables.ts';
import { createLucia } from './lucia.ts';
import { hashToken } from './token.ts';

/** A person's place in one club, with the device that this browser is for that member. */
export interface Seat {
	readonly club: string;
	readonly clubName: string;
	readonly member: MemberId;
	/** Handle or name, as the club sees it. */
	readonly name: string;
	readonly device: DeviceId;
	readonly roles: readonly { readonly role: RoleName; readonly of: string }[];
}

/** Who is asking. `sessionId` is a hash: good for telling sessions apart, useless for signing in. */
export interface SignedIn {
	readonly sessionId: string;
	readonly account: string;
	readonly clubs: readonly Seat[];
	/** True when an officer's link opened this session for one club only. */
	readonly confined: boolean;
}

export const sessionCookie = 'kithline_session';
export const browserCookie = 'kithline_browser';

/** The seat in one club, or null for somebody who has none there. */
export function seatIn(session: SignedIn | null, club: string): Seat | null {
	return session?.clubs.find((seat) => seat.club === club) ?? null;
}

export function isOfficer(seat: Seat | null): boolean {
	return seat !== null && seat.roles.some(({ role }) => role === 'officer');
}

export interface Sessions {
	/** A new session; the answer is the cookie's secret. */
	start(account: string, browserToken: string, onlyClub?: string | null): Promise<string>;
	/** Whose secret this is, or null: unknown, ended and expired look the same. */
	read(secret: string | null | undefined): Promise<SignedIn | null>;
	end(secret: string): Promise<void>;
	/** Ends all sessions of an account. */
	endAll(account: string): Promise<void>;
	/** Forgets what has expired. */
	tidy(): Promise<void>;
	/** Attributes for the cookie, beside its name and value. */
	cookie(secure: boolean): CookieAttributes;
	/** Tells of sessions and memberships that ended, so that open sockets are closed. */
	onEnded(listener: (ended: Ended) => void): void;
	tellEnded(ended: Ended): void;
}

export type Ended =
	{ readonly session: string } | { readonly account: string } | { readonly member: MemberId };

export interface CookieAttributes {
	path: string;
	httpOnly: true;
	sameSite: 'lax';
	secure: boolean;
	maxAge: number;
}

const daySeconds = 24 * 60 * 60;

export function createSessions(db: Db, sessionDays: number, now: () => number): Sessions {
	const accounts = db as unknown as Kysely<AccountTables>;
	const lucia = createLucia(accounts, sessionDays, now);
	const listeners: ((ended: Ended) => void)[] = [];
	const tellEnded = (ended: Ended) => listeners.forEach((listener) => listener(ended));

	async function seats(account: string, browser: string, onlyClub: string | null): Promise<Seat[]> {
		const rows = await db
			.selectFrom('member')
			.innerJoin('club', 'club.id', 'member.club')
			.leftJoin('device', (join) =>
				join.onRef('device.member', '=', 'member.id').on('device.browser', '=', browser)
			)
			.select([
				'member.id as member',
				'member.club',
				'member.name',
				'club.name as clubName',
				'device.id as device'
			])
			.where('member.account', '=', account)
			.where('member.leftAt', 'is', null)
			.orderBy('club.name')
			.orderBy('club.id')
			.execute();
		const shown = rows.filter((row) => onlyClub === null || row.club === onlyClub);
		if (shown.length === 0) return [];
		const members = shown.map((row) => row.member);
		const roles = await db
			.selectFrom('role')
			.select(['member', 'role', 'of'])
			.where('member', 'in', members)
			.execute();
		return Promise.all(
			shown.map(async (row) => ({
				...row,
				device: row.device ?? (await deviceOf(row.member, browser)),
				roles: roles.filter((role) => role.member === row.member).map(({ role, of }) => ({ role, of }))
			}))
		);
	}

	/** The device of a member on a browser, made when there is none; two requests at once make one. */
	async function deviceOf(member: MemberId, browser: string): Promise<DeviceId> {
		const made = { id: newId(), member, browser, madeAt: now() };
		await db
			.insertInto('device')
			.values(made)
			.onConflict((conflict) => conflict.columns(['member', 'browser']).doNothing())
			.execute();
		const { id } = await db
			.selectFrom('device')
			.select('id')
			.where('member', '=', member)
			.where('browser', '=', browser)
			.executeTakeFirstOrThrow();
		return id;
	}

	return {
		async start(account, browserToken, onlyClub = null) {
			const session = await lucia.createSession(account, { browser: hashToken(browserToken), onlyClub });
			return session.id;
		},
		async read(secret) {
			if (!secret) return null;
			const { session } = await lucia.validateSession(secret);
			if (!session) return null;
			const clubs = await seats(session.userId, session.browser, session.onlyClub);
			return {
				sessionId: hashToken(secret),
				account: session.userId,
				clubs,
				confined: session.onlyClub !== null
			};
		},
		async end(secret) {
			await lucia.invalidateSession(secret);
			tellEnded({ session: hashToken(secret) });
		},
		async endAll(account) {
			await lucia.invalidateUserSessions(account);
			tellEnded({ account });
		},
		tidy: () => lucia.deleteExpiredSessions(),
		// The cookie outlives the session, whose end is in the table: an expired one then says "signed out".
		cookie: (secure) => ({ path: '/', httpOnly: true, sameSite: 'lax', secure, maxAge: 400 * daySeconds }),
		onEnded: (listener) => void listeners.push(listener),
		tellEnded
	};
}
