/** All tables that accounts and clubs use, and their transaction: one type, so that functions fit together. */
import type { Kysely, Transaction } from 'kysely';
import { createAccountTables, type AccountTables } from '../auth/accountTables.ts';
import { createClubTables, type ClubTables } from './clubTables.ts';

export type Tables = AccountTables & ClubTables;
export type Db = Kysely<Tables>;
export type Tx = Transaction<Tables>;

/** Makes what is missing. Running it again changes nothing. */
export async function createTables(db: Db): Promise<void> {
	await createAccountTables(db as unknown as Kysely<AccountTables>);
	await createClubTables(db as unknown as Kysely<ClubTables>);
}
