/**
 * Who has signed in on this browser and to which clubs, for pages that open with no network, when the session cannot
 * be asked about. No secrets: opening the app this way shows what is on this device, sharing needs the session.
 */
import { openDB, type DBSchema, type IDBPDatabase } from 'idb';
import type { DeviceId, MemberId } from '#records/entry.ts';

export interface KnownPerson {
	readonly club: string;
	readonly clubName: string;
	readonly member: MemberId;
	readonly name: string;
	readonly device: DeviceId;
	/** ms since 1970 */
	readonly lastUsed: number;
}

interface PeopleSchema extends DBSchema {
	people: { key: [string, string]; value: KnownPerson };
}

export async function rememberPerson(person: KnownPerson): Promise<void> {
	await withPeople(async (db) => {
		const transaction = db.transaction('people', 'readwrite', { durability: 'strict' });
		await transaction.store.put(person);
		await transaction.done;
	});
}

/** The one who used the app last first. */
export async function knownPeople(): Promise<KnownPerson[]> {
	const people = await withPeople((db) => db.getAll('people'));
	return people.sort((one, other) => other.lastUsed - one.lastUsed);
}

export async function forgetPerson(club: string, member: MemberId): Promise<void> {
	await withPeople((db) => db.delete('people', [club, member]));
}

async function withPeople<Value>(work: (db: IDBPDatabase<PeopleSchema>) => Promise<Value>): Promise<Value> {
	const db = await openDB<PeopleSchema>('kithline', 1, {
		upgrade: (database) => {
			database.createObjectStore('people', { keyPath: ['club', 'member'] });
		}
	});
	try {
		return await work(db);
	} finally {
		db.close();
	}
}
