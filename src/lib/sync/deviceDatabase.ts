/**
 * The device's own database: one for each member of each club, so that two people may share a tablet.
 * Small on purpose: what is not shared yet must survive even where the cache of the document does not.
 */
import { openDB, type DBSchema, type IDBPDatabase } from 'idb';
import type { Audience, EntryId, MemberId } from '#records/entry.ts';
import type { RefusalReason } from '#protocol/messages.ts';

/**
 * - `waiting`: only on this device; may still be taken back.
 * - `sending`: has been handed to a document, so the club may have it by now; cannot be taken back.
 * - `refused`: the server will never take it as it is.
 */
export type UnsharedState = 'waiting' | 'sending' | 'refused';

export interface UnsharedRecord {
	/** Order of writing on this device. */
	readonly order: number;
	readonly id: EntryId;
	/** The entry's JSON text, never changed after this. */
	readonly text: string;
	readonly audience: Audience;
	/** First id of its `together` set, or its own id: a group is sent, undone and refused as one. */
	readonly group: EntryId;
	/** UTF-8 bytes of the text. */
	readonly bytes: number;
	readonly state: UnsharedState;
	readonly reason?: RefusalReason;
}

/** An entry of a copy that was dropped, until the club has said whether it still has it. */
export interface CandidateRecord {
	readonly id: EntryId;
	readonly text: string;
	readonly audience: Audience;
	readonly own: boolean;
}

export interface VolumeRecord {
	readonly digest: string;
	readonly audience: Audience;
	/** Gzipped JSON lines. */
	readonly bytes: Uint8Array<ArrayBuffer>;
}

export interface DeviceSchema extends DBSchema {
	unshared: { key: number; value: UnsharedRecord; indexes: { id: string; group: string } };
	candidates: { key: string; value: CandidateRecord };
	/** Others' entries that this device holds and the club has lost. */
	aside: { key: string; value: CandidateRecord };
	volumes: { key: string; value: VolumeRecord };
	meta: { key: string; value: unknown };
}
export type DeviceStoreName = 'unshared' | 'candidates' | 'aside' | 'volumes' | 'meta';
export const deviceStoreNames: readonly DeviceStoreName[] = [
	'unshared',
	'candidates',
	'aside',
	'volumes',
	'meta'
];

export function deviceDatabaseName(club: string, member: MemberId): string {
	return `kithline:${encodeURIComponent(club)}:${encodeURIComponent(member)}`;
}

export interface OpenedDatabase {
	readonly db: IDBPDatabase<DeviceSchema>;
	/** It was not there before this call. */
	readonly created: boolean;
}

/** @param onGone the browser closed or deleted the database under the app */
export async function openDeviceDatabase(name: string, onGone: () => void): Promise<OpenedDatabase> {
	let created = false;
	const db = await openDB<DeviceSchema>(name, 1, {
		upgrade(database, oldVersion) {
			created = oldVersion === 0;
			const unshared = database.createObjectStore('unshared', { keyPath: 'order', autoIncrement: true });
			unshared.createIndex('id', 'id', { unique: true });
			unshared.createIndex('group', 'group');
			database.createObjectStore('candidates', { keyPath: 'id' });
			database.createObjectStore('aside', { keyPath: 'id' });
			database.createObjectStore('volumes', { keyPath: 'digest' });
			database.createObjectStore('meta');
		},
		blocking(_current, _blocked, event) {
			// Somebody deletes the database: holding on would only block them, and the data is lost either way.
			(event.target as IDBDatabase).close();
			onGone();
		},
		terminated: onGone
	});
	return { db, created };
}
