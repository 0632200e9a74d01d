/**
 * Links and codes that work once: invitations, sign-in links that an officer makes, the link that opens the first
 * club.
 *
 * Model: a row of `onceLink` with the SHA-256 of the link's token and an argon2id hash of the printed code, its first
 * four digits in plain to find the row. Looking never uses a link up (chat programs fetch every link they see); only
 * the form behind it does, with one UPDATE that can succeed once.
 * Threats answered: a stolen database (no token or code in it); guessing a code (10^12 of them, memory-hard, tries
 * counted); two people with one link (the second is told that it does not work); telling a used link from a wrong
 * one (all failures are `link-failed`).
 */
import { v7 as newId } from 'uuid';
import type { Selectable } from 'kysely';
import type { Db, Tx } from '../club/tables.ts';
import { AppError } from '../appError.ts';
import type { AccountTables } from './accountTables.ts';
import { hashPassword, isPasswordOf } from './passwords.ts';
import { hashToken, isSameHash, newCode, newToken, readCode } from './token.ts';

export type OnceLink = Selectable<AccountTables['onceLink']>;
export type Purpose = OnceLink['purpose'];

/** How long each sort of link works, in ms. */
export const linkLastsMs: Record<Purpose, number> = {
	invitation: 30 * 24 * 60 * 60_000,
	'sign-in': 3 * 24 * 60 * 60_000,
	'first-officer': 365 * 24 * 60 * 60_000
};

/** What the maker sees once and nobody can read again. */
export interface MadeLink {
	readonly id: string;
	readonly token: string;
	/** Twelve digits in three groups. */
	readonly code: string;
	readonly expiresAt: number;
}

interface Wanted {
	readonly purpose: Purpose;
	readonly club?: string | null;
	readonly account?: string | null;
	readonly name?: string;
	readonly room?: string | null;
	readonly guardian?: string;
	readonly madeBy?: string | null;
}

export interface Invitations {
	make(wanted: Wanted): Promise<MadeLink>;
	/** Looks without using up. @throws AppError `link-failed` */
	look(tokenOrCode: string, purposes: readonly Purpose[]): Promise<OnceLink>;
	/** Uses it up inside the transaction that does what it is for. @throws AppError `link-failed` the second time */
	use(transaction: Tx, link: OnceLink): Promise<void>;
	/** Makes every unused link of a purpose stop working, for one account or altogether. */
	revoke(purpose: Purpose, account?: string): Promise<void>;
}

export function createInvitations(db: Db, now: () => number): Invitations {
	async function byToken(token: string): Promise<OnceLink | null> {
		const hash = hashToken(token);
		const row = await db.selectFrom('onceLink').selectAll().where('hash', '=', hash).executeTakeFirst();
		return row && isSameHash(row.hash, hash) ? row : null;
	}

	async function byCode(digits: string): Promise<OnceLink | null> {
		const rows = await db
			.selectFrom('onceLink')
			.selectAll()
			.where('slip', '=', digits.slice(0, 4))
			.where('usedAt', 'is', null)
			.where('expiresAt', '>', now())
			.limit(8)
			.execute();
		if (rows.length === 0) await isPasswordOf(null, digits);
		for (const row of rows) if (await isPasswordOf(row.codeHash, digits)) return row;
		return null;
	}

	return {
		async make({
			purpose,
			club = null,
			account = null,
			name = '',
			room = null,
			guardian = '',
			madeBy = null
		}) {
			const [token, code, id] = [newToken(), newCode(), newId()];
			const digits = readCode(code)!;
			const expiresAt = now() + linkLastsMs[purpose];
			const secrets = {
				hash: hashToken(token),
				slip: digits.slice(0, 4),
				codeHash: await hashPassword(digits)
			};
			const about = { club, account, name, room, guardian, madeBy };
			await db
				.insertInto('onceLink')
				.values({ id, purpose, ...secrets, ...about, madeAt: now(), expiresAt, usedAt: null })
				.execute();
			return { id, token, code, expiresAt };
		},
		async look(tokenOrCode, purposes) {
			const digits = readCode(tokenOrCode);
			const link = digits ? await byCode(digits) : await byToken(tokenOrCode);
			const works = link && link.usedAt === null && Number(link.expiresAt) > now();
			if (!works || !purposes.includes(link.purpose)) throw new AppError('link-failed');
			return link;
		},
		async use(transaction, link) {
			const { numUpdatedRows } = await transaction
				.updateTable('onceLink')
				.set({ usedAt: now() })
				.where('id', '=', link.id)
				.where('usedAt', 'is', null)
				.where('expiresAt', '>', now())
				.executeTakeFirst();
			if (numUpdatedRows !== 1n) throw new AppError('link-failed', link.id);
		},
		async revoke(purpose, account) {
			let query = db.deleteFrom('onceLink').where('purpose', '=', purpose).where('usedAt', 'is', null);
			if (account !== undefined) query = query.where('account', '=', account);
			await query.execute();
		}
	};
}
