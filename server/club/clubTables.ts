/** The tables of clubs, memberships, roles, rooms' keepers and bag number blocks. Times are ms since 1970. */
import type { Kysely } from 'kysely';
import type { RoleName } from '#records/state.ts';

export interface ClubTables {
	club: { id: string; name: string; timeZone: string; region: string; openedAt: number };
	/** A person's place in one club. The id is the `by` of their entries. */
	member: {
		id: string;
		club: string;
		account: string;
		/** Handle or name, as shown. */
		name: string;
		joinedAt: number;
		leftAt: number | null;
	};
	role: {
		member: string;
		role: RoleName;
		/** Line or meeting; '' for officers. */ of: string;
		since: number;
	};
	/** A place no finer than a region. `epoch` names the private document of those who keep it now. */
	room: { id: string; club: string; name: string; region: string; house: string; epoch: string };
	keeper: { room: string; member: string; since: number };
	/** Who kept the room when its private document of that epoch was opened. */
	roomReader: { room: string; epoch: string; member: string };
	/** Bag numbers given to a device: from `first` to `last`, never given again in this club. */
	numberBlock: {
		club: string;
		first: number;
		last: number;
		device: string;
		/** The device's own name for its request: asked twice, answered the same. */
		request: string;
		givenAt: number;
	};
	/** The club's own entries, written with the change they tell of, until the ledger has them. */
	clubEntry: { id: string; club: string; place: number; draft: string };
}

/** Makes what is missing. Running it again changes nothing. */
export async function createClubTables(db: Kysely<ClubTables>): Promise<void> {
	const text = 'text' as const;
	const time = 'bigint' as const;
	await db.schema
		.createTable('club')
		.ifNotExists()
		.addColumn('id', text, (c) => c.primaryKey())
		.addColumn('name', text, (c) => c.notNull())
		.addColumn('timeZone', text, (c) => c.notNull())
		.addColumn('region', text, (c) => c.notNull())
		.addColumn('openedAt', time, (c) => c.notNull())
		.execute();
	await db.schema
		.createTable('member')
		.ifNotExists()
		.addColumn('id', text, (c) => c.primaryKey())
		.addColumn('club', text, (c) => c.notNull().references('club.id'))
		.addColumn('account', text, (c) => c.notNull())
		.addColumn('name', text, (c) => c.notNull())
		.addColumn('joinedAt', time, (c) => c.notNull())
		.addColumn('leftAt', time)
		.addUniqueConstraint('memberOnce', ['club', 'account'])
		.execute();
	await db.schema.createIndex('memberAccount').ifNotExists().on('member').column('account').execute();
	await db.schema
		.createTable('role')
		.ifNotExists()
		.addColumn('member', text, (c) => c.notNull().references('member.id'))
		.addColumn('role', text, (c) => c.notNull())
		.addColumn('of', text, (c) => c.notNull())
		.addColumn('since', time, (c) => c.notNull())
		.addPrimaryKeyConstraint('roleOnce', ['member', 'role', 'of'])
		.execute();
	await db.schema
		.createTable('room')
		.ifNotExists()
		.addColumn('id', text, (c) => c.primaryKey())
		.addColumn('club', text, (c) => c.notNull().references('club.id'))
		.addColumn('name', text, (c) => c.notNull())
		.addColumn('region', text, (c) => c.notNull())
		.addColumn('house', text, (c) => c.notNull())
		.addColumn('epoch', text, (c) => c.notNull())
		.execute();
	await db.schema.createIndex('roomClub').ifNotExists().on('room').column('club').execute();
	await db.schema
		.createTable('keeper')
		.ifNotExists()
		.addColumn('room', text, (c) => c.notNull().references('room.id'))
		.addColumn('member', text, (c) => c.notNull().references('member.id'))
		.addColumn('since', time, (c) => c.notNull())
		.addPrimaryKeyConstraint('keeperOnce', ['room', 'member'])
		.execute();
	await db.schema
		.createTable('roomReader')
		.ifNotExists()
		.addColumn('room', text, (c) => c.notNull().references('room.id'))
		.addColumn('epoch', text, (c) => c.notNull())
		.addColumn('member', text, (c) => c.notNull().references('member.id'))
		.addPrimaryKeyConstraint('readerOnce', ['room', 'epoch', 'member'])
		.execute();
	await db.schema
		.createTable('numberBlock')
		.ifNotExists()
		.addColumn('club', text, (c) => c.notNull().references('club.id'))
		.addColumn('first', 'integer', (c) => c.notNull())
		.addColumn('last', 'integer', (c) => c.notNull())
		.addColumn('device', text, (c) => c.notNull())
		.addColumn('request', text, (c) => c.notNull())
		.addColumn('givenAt', time, (c) => c.notNull())
		.addPrimaryKeyConstraint('numberOnce', ['club', 'first'])
		.execute();
	await db.schema
		.createTable('clubEntry')
		.ifNotExists()
		.addColumn('id', text, (c) => c.primaryKey())
		.addColumn('club', text, (c) => c.notNull())
		.addColumn('place', 'integer', (c) => c.notNull())
		.addColumn('draft', text, (c) => c.notNull())
		.execute();
}
