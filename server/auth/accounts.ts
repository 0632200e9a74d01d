/**
 * What people do with accounts: sign in, accept an invitation, open the first club, use an officer's link, change the
 * password. The order is always the same: count the try, check, hash, one transaction, hand the club's entries on,
 * start a session.
 */
import { v7 as newId } from 'uuid';
import { AppError } from '../appError.ts';
import type { ClubRecord } from '../club/clubRecord.ts';
import { joinClub, openClub, type NewClub } from '../club/members.ts';
import { giveRole } from '../club/roles.ts';
import { changeKeepers, openRoom, type RoomWords } from '../club/rooms.ts';
import type { Db, Tx } from '../club/tables.ts';
import type { AttemptKey, Attempts } from './attempts.ts';
import type { Invitations, OnceLink, Purpose } from './invitations.ts';
import { hashPassword, isPasswordOf, isStrongEnough } from './passwords.ts';
import type { Sessions } from './session.ts';
import { hashToken } from './token.ts';

/** Where a try comes from. */
export interface Caller {
	/** Network address, for counting tries only. */
	readonly address: string;
	/** The browser's long-lived token. */
	readonly browser: string;
}

export interface NewAccount {
	readonly signInName: string;
	readonly password: string;
}

/** A new session's secret, and the club to go to (null = choose). */
export interface SignedInNow {
	readonly secret: string;
	readonly club: string | null;
}

export interface Accounts {
	signIn(signInName: string, password: string, caller: Caller): Promise<SignedInNow>;
	/** Looks at a link or code without using it up. */
	look(tokenOrCode: string, purposes: readonly Purpose[], caller: Caller): Promise<OnceLink>;
	/** Joins by invitation with a new account, or with one that the person has (`existing`). */
	acceptInvitation(
		token: string,
		name: string,
		account: NewAccount,
		existing: boolean,
		caller: Caller
	): Promise<SignedInNow>;
	/** Opens the first club and makes its first officer. `room`: the officer's own, if any. */
	openFirstClub(
		token: string,
		club: NewClub,
		name: string,
		account: NewAccount,
		room: RoomWords | null,
		caller: Caller
	): Promise<SignedInNow>;
	/** An officer's link: a new password, or (for someone in other clubs too) a sign-in to that club alone. */
	useSignInLink(token: string, password: string, caller: Caller): Promise<SignedInNow>;
	/** Ends every session of the account and starts a new one. */
	changePassword(account: string, current: string, next: string, caller: Caller): Promise<SignedInNow>;
	/** Whether nobody has an account yet. */
	isEmpty(): Promise<boolean>;
}

/** What is compared: case, width and spaces around do not matter. */
export function signInKey(signInName: string): string {
	return signInName.normalize('NFKC').trim().toLowerCase();
}

/** Inserts an account. @throws AppError `name-taken` */
export async function insertAccount(
	transaction: Tx,
	account: {
		readonly signInName: string;
		readonly passwordHash: string;
		readonly guardian?: string;
		readonly id?: string;
	},
	at: number
): Promise<string> {
	const { signInName, passwordHash, guardian = '', id = newId() } = account;
	const contact = { email: '', phone: '', street: '', guardian };
	const { numInsertedOrUpdatedRows } = await transaction
		.insertInto('account')
		.values({
			id,
			signInName: signInName.trim(),
			signInKey: signInKey(signInName),
			passwordHash,
			...contact,
			madeAt: at
		})
		.onConflict((conflict) => conflict.column('signInKey').doNothing())
		.executeTakeFirstOrThrow();
	if (numInsertedOrUpdatedRows === 0n) throw new AppError('name-taken');
	return id;
}

interface Parts {
	readonly db: Db;
	readonly sessions: Sessions;
	readonly invitations: Invitations;
	readonly attempts: Attempts;
	readonly record: ClubRecord;
	/** The clock, ms since 1970. */
	readonly now: () => number;
}

export function createAccounts({ db, sessions, invitations, attempts, record, now }: Parts): Accounts {
	/** Runs a try: counted when it fails for a reason that guessing would meet. */
	async function tried<Result>(keys: readonly AttemptKey[], work: () => Promise<Result>): Promise<Result> {
		attempts.check(keys);
		try {
			const result = await work();
			attempts.passed(keys);
			return result;
		} catch (error) {
			const guessed =
				error instanceof AppError && /^(sign-in-failed|link-failed|name-taken)$/.test(error.code);
			if (guessed) attempts.failed(keys);
			throw error;
		}
	}
	const nameKeys = (caller: Caller, name: string): AttemptKey[] => [
		`address:${caller.address}`,
		`name:${hashToken(signInKey(name))}`
	];
	const linkKeys = (caller: Caller): AttemptKey[] => [`address:${caller.address}`, 'all:links'];

	/** @throws AppError `sign-in-failed`, whether the name or the password is wrong */
	async function proven(signInName: string, password: string): Promise<{ id: string; passwordHash: string }> {
		const row = await db
			.selectFrom('account')
			.select(['id', 'passwordHash'])
			.where('signInKey', '=', signInKey(signInName))
			.executeTakeFirst();
		if (!(await isPasswordOf(row?.passwordHash ?? null, password))) throw new AppError('sign-in-failed');
		return row!;
	}

	/** A session for a password just proven; none if it was changed in between. */
	async function startProven(account: { id: string; passwordHash: string }, caller: Caller): Promise<string> {
		const secret = await sessions.start(account.id, caller.browser);
		const now = await db
			.selectFrom('account')
			.select('passwordHash')
			.where('id', '=', account.id)
			.executeTakeFirst();
		if (now?.passwordHash === account.passwordHash) return secret;
		await sessions.end(secret);
		throw new AppError('sign-in-failed');
	}

	async function newHash({ signInName, password }: NewAccount): Promise<string> {
		if (!isStrongEnough(password, signInName)) throw new AppError('weak-password');
		return hashPassword(password);
	}

	async function setPassword(account: string, passwordHash: string, link: OnceLink | null): Promise<void> {
		await db.transaction().execute(async (transaction) => {
			if (link) await invitations.use(transaction, link);
			await transaction.updateTable('account').set({ passwordHash }).where('id', '=', account).execute();
			// Sessions end in the same commit as the password changes, so that none outlives it.
			await transaction.deleteFrom('session').where('account', '=', account).execute();
		});
		await sessions.endAll(account);
		await invitations.revoke('sign-in', account);
	}

	return {
		signIn: (signInName, password, caller) =>
			tried(nameKeys(caller, signInName), async () => {
				const account = await proven(signInName, password);
				return { secret: await startProven(account, caller), club: null };
			}),

		look: (tokenOrCode, purposes, caller) =>
			tried(linkKeys(caller), () => invitations.look(tokenOrCode, purposes)),

		async acceptInvitation(token, name, given, existing, caller) {
			const link = await tried(linkKeys(caller), () => invitations.look(token, ['invitation']));
			const club = link.club!;
			const known = existing
				? await tried(nameKeys(caller, given.signInName), () => proven(given.signInName, given.password))
				: null;
			const passwordHash = known ? '' : await newHash(given);
			const account = await tried(linkKeys(caller), () =>
				db.transaction().execute(async (transaction) => {
					await invitations.use(transaction, link);
					const { signInName } = given;
					const { guardian } = link;
					const id =
						known?.id ?? (await insertAccount(transaction, { signInName, passwordHash, guardian }, now()));
					const asked = { by: link.madeBy, at: now() };
					const member = await joinClub(transaction, record, club, { account: id, name }, asked);
					const add = { add: [member], remove: [] };
					if (link.room) await changeKeepers(transaction, record, club, link.room, add, asked);
					return id;
				})
			);
			await record.flush(club);
			return { secret: await sessions.start(account, caller.browser), club };
		},

		async openFirstClub(token, newClub, name, given, room, caller) {
			const link = await tried(linkKeys(caller), () => invitations.look(token, ['first-officer']));
			const passwordHash = await newHash(given);
			const { account, club } = await db.transaction().execute(async (transaction) => {
				await invitations.use(transaction, link);
				const asked = { by: null, at: now() };
				const { signInName } = given;
				const account = await insertAccount(transaction, { signInName, passwordHash }, now());
				const club = await openClub(transaction, record, newClub, asked);
				const member = await joinClub(transaction, record, club, { account, name }, asked);
				await giveRole(transaction, record, club, { member, role: 'officer', of: null }, asked);
				if (room)
					await openRoom(transaction, record, club, { ...room, keepers: [member] }, { ...asked, by: member });
				return { account, club };
			});
			await record.flush(club);
			return { secret: await sessions.start(account, caller.browser), club };
		},

		async useSignInLink(token, password, caller) {
			const link = await tried(linkKeys(caller), () => invitations.look(token, ['sign-in']));
			const account = link.account!;
			const { club } = link;
			const row = await db
				.selectFrom('account')
				.select('signInName')
				.where('id', '=', account)
				.executeTakeFirstOrThrow();
			if (club !== null && (await isElsewhere(db, account, club))) {
				// An officer of one club must not get at what the person does in another.
				await db.transaction().execute((transaction) => invitations.use(transaction, link));
				return { secret: await sessions.start(account, caller.browser, club), club };
			}
			await setPassword(account, await newHash({ signInName: row.signInName, password }), link);
			return { secret: await sessions.start(account, caller.browser), club };
		},

		async changePassword(account, current, next, caller) {
			const row = await db
				.selectFrom('account')
				.select(['signInName', 'passwordHash'])
				.where('id', '=', account)
				.executeTakeFirstOrThrow();
			await tried(nameKeys(caller, row.signInName), async () => {
				if (!(await isPasswordOf(row.passwordHash, current))) throw new AppError('sign-in-failed');
			});
			await setPassword(account, await newHash({ signInName: row.signInName, password: next }), null);
			return { secret: await sessions.start(account, caller.browser), club: null };
		},

		async isEmpty() {
			return (await db.selectFrom('account').select('id').limit(1).executeTakeFirst()) === undefined;
		}
	};
}

/** Whether a person is in a club beside this one. */
export async function isElsewhere(db: Db, account: string, club: string): Promise<boolean> {
	const row = await db
		.selectFrom('member')
		.select('id')
		.where('account', '=', account)
		.where('club', '!=', club)
		.where('leftAt', 'is', null)
		.executeTakeFirst();
	return row !== undefined;
}
