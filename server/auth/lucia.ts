/** lucia over our session table: the only file that knows lucia's adapter, so that it can be replaced. */
import { Lucia, TimeSpan, type Adapter, type DatabaseSession } from 'lucia';
import type { Kysely } from 'kysely';
import type { AccountTables } from './accountTables.ts';
import { hashToken } from './token.ts';

interface SessionAttributes {
	/** SHA-256 of the browser's long-lived token. */
	browser: string;
	onlyClub: string | null;
}
declare module 'lucia' {
	interface Register {
		Lucia: Lucia<SessionAttributes>;
		DatabaseSessionAttributes: SessionAttributes;
	}
}

/** lucia's session id is the secret in the cookie; the table knows its hash only. */
function adapterOver(db: Kysely<AccountTables>, now: () => number): Adapter {
	return {
		async getSessionAndUser(token) {
			const row = await db
				.selectFrom('session')
				.selectAll()
				.where('hash', '=', hashToken(token))
				.executeTakeFirst();
			if (!row) return [null, null];
			const session: DatabaseSession = {
				id: token,
				userId: row.account,
				expiresAt: new Date(Number(row.expiresAt)),
				attributes: { browser: row.browser, onlyClub: row.onlyClub }
			};
			return [session, { id: row.account, attributes: {} }];
		},
		/** The secrets of other sessions cannot be read back, so there is no list to give. */
		getUserSessions: () => Promise.resolve([]),
		async setSession({ id, userId, expiresAt, attributes }) {
			const row = {
				hash: hashToken(id),
				account: userId,
				expiresAt: expiresAt.getTime(),
				madeAt: now(),
				...attributes
			};
			await db.insertInto('session').values(row).execute();
		},
		async updateSessionExpiration(token, expiresAt) {
			const expires = { expiresAt: expiresAt.getTime() };
			await db.updateTable('session').set(expires).where('hash', '=', hashToken(token)).execute();
		},
		async deleteSession(token) {
			await db.deleteFrom('session').where('hash', '=', hashToken(token)).execute();
		},
		async deleteUserSessions(account) {
			await db.deleteFrom('session').where('account', '=', account).execute();
		},
		async deleteExpiredSessions() {
			await db.deleteFrom('session').where('expiresAt', '<=', now()).execute();
		}
	};
}

export function createLucia(db: Kysely<AccountTables>, sessionDays: number, now: () => number) {
	return new Lucia(adapterOver(db, now), {
		sessionExpiresIn: new TimeSpan(sessionDays, 'd'),
		sessionCookie: { name: 'kithline_session', expires: false },
		getSessionAttributes: ({ browser, onlyClub }) => ({ browser, onlyClub })
	});
}
