/** The tables of accounts, sessions, devices and links that work once. Times are ms since 1970. */
import type { Kysely } from 'kysely';

export interface AccountTables {
	/** A person. E-mail, phone and street live here and in no document. */
	account: {
		id: string;
		/** As typed; `signInKey` is what is compared. */
		signInName: string;
		signInKey: string;
		passwordHash: string;
		email: string;
		phone: string;
		street: string;
		/** Who handles consent and contact for a minor; '' = not needed. */
		guardian: string;
		madeAt: number;
	};
	session: {
		/** SHA-256 of the cookie's token. */
		hash: string;
		account: string;
		/** SHA-256 of the browser's long-lived token: with the member it gives the device. */
		browser: string;
		/** A sign-in by an officer's link to someone who is in other clubs too sees that officer's club only. */
		onlyClub: string | null;
		expiresAt: number;
		madeAt: number;
	};
	/** One browser as one member uses it; another member on the same browser has another. */
	device: { id: string; member: string; browser: string; madeAt: number };
	/** Invitations, one-time sign-in links, and the link that opens the first club. */
	onceLink: {
		id: string;
		purpose: 'invitation' | 'sign-in' | 'first-officer';
		/** SHA-256 of the token in the link. */
		hash: string;
		/** First four digits of the printed code, to find the row; the rest stands only in `codeHash`. */
		slip: string;
		codeHash: string;
		club: string | null;
		/** For `sign-in`: whose account. */
		account: string | null;
		/** For `invitation`: the name suggested, and a room to keep with others. */
		name: string;
		room: string | null;
		/** Who handles consent and contact for a minor. */
		guardian: string;
		madeBy: string | null;
		madeAt: number;
		expiresAt: number;
		usedAt: number | null;
	};
}

/** Makes what is missing. Running it again changes nothing. */
export async function createAccountTables(db: Kysely<AccountTables>): Promise<void> {
	const text = 'text' as const;
	const time = 'bigint' as const;
	await db.schema
		.createTable('account')
		.ifNotExists()
		.addColumn('id', text, (c) => c.primaryKey())
		.addColumn('signInName', text, (c) => c.notNull())
		.addColumn('signInKey', text, (c) => c.notNull().unique())
		.addColumn('passwordHash', text, (c) => c.notNull())
		.addColumn('email', text, (c) => c.notNull().defaultTo(''))
		.addColumn('phone', text, (c) => c.notNull().defaultTo(''))
		.addColumn('street', text, (c) => c.notNull().defaultTo(''))
		.addColumn('guardian', text, (c) => c.notNull().defaultTo(''))
		.addColumn('madeAt', time, (c) => c.notNull())
		.execute();
	await db.schema
		.createTable('session')
		.ifNotExists()
		.addColumn('hash', text, (c) => c.primaryKey())
		.addColumn('account', text, (c) => c.notNull().references('account.id').onDelete('cascade'))
		.addColumn('browser', text, (c) => c.notNull())
		.addColumn('onlyClub', text)
		.addColumn('expiresAt', time, (c) => c.notNull())
		.addColumn('madeAt', time, (c) => c.notNull())
		.execute();
	await db.schema.createIndex('sessionAccount').ifNotExists().on('session').column('account').execute();
	await db.schema
		.createTable('device')
		.ifNotExists()
		.addColumn('id', text, (c) => c.primaryKey())
		.addColumn('member', text, (c) => c.notNull())
		.addColumn('browser', text, (c) => c.notNull())
		.addColumn('madeAt', time, (c) => c.notNull())
		.addUniqueConstraint('deviceOfMember', ['member', 'browser'])
		.execute();
	await db.schema
		.createTable('onceLink')
		.ifNotExists()
		.addColumn('id', text, (c) => c.primaryKey())
		.addColumn('purpose', text, (c) => c.notNull())
		.addColumn('hash', text, (c) => c.notNull().unique())
		.addColumn('slip', text, (c) => c.notNull())
		.addColumn('codeHash', text, (c) => c.notNull())
		.addColumn('club', text)
		.addColumn('account', text)
		.addColumn('name', text, (c) => c.notNull())
		.addColumn('room', text)
		.addColumn('guardian', text, (c) => c.notNull())
		.addColumn('madeBy', text)
		.addColumn('madeAt', time, (c) => c.notNull())
		.addColumn('expiresAt', time, (c) => c.notNull())
		.addColumn('usedAt', time)
		.execute();
	await db.schema.createIndex('onceLinkSlip').ifNotExists().on('onceLink').column('slip').execute();
}
