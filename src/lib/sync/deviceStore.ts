/**
 * The store of unshared entries, and what else this device keeps for one member of one club.
 *
 * A promise of a writing method resolves only after its transaction completed with `durability: 'strict'`; that, and
 * nothing else, is what "only on this device" means on the screen. A failure is thrown as a DeviceError.
 */
import type { IDBPDatabase, IDBPTransaction } from 'idb';
import type { EntryId, MemberId } from '#records/entry.ts';
import type { RefusalReason } from '#protocol/messages.ts';
import {
	deviceDatabaseName,
	openDeviceDatabase,
	type CandidateRecord,
	type DeviceSchema,
	type DeviceStoreName,
	type UnsharedRecord,
	type VolumeRecord
} from './deviceDatabase.ts';
import { DeviceError } from './problems.ts';

type NewRecord = Omit<UnsharedRecord, 'order' | 'state'>;
type Writing = IDBPTransaction<DeviceSchema, DeviceStoreName[], 'readwrite'>;
export type UndoResult = readonly EntryId[] | 'already-sending' | 'not-here';

export interface StoreWatch {
	/** The browser threw the database away under the app; `putBack` entries were written again from memory. */
	putBack(count: number): void;
	/** There was no room until the saved state, which can be computed again, was given up. */
	madeRoom(): void;
}

export class DeviceStore {
	readonly name: string;
	/** The database was new when this page opened it. */
	created = false;
	readonly #watch: StoreWatch;
	#opening: Promise<IDBPDatabase<DeviceSchema>> | undefined;
	#closed = false;
	#gone = false;
	/** What this page knows to be unshared, so that it can be put back if the browser throws the database away. */
	#remembered = new Map<EntryId, UnsharedRecord>();

	constructor(club: string, member: MemberId, watch: StoreWatch) {
		this.name = deviceDatabaseName(club, member);
		this.#watch = watch;
	}

	async open(): Promise<void> {
		await this.#database();
		await this.unshared();
	}

	/** Adds entries in the order given, all or none. An id that is here already is left as it is: union, never doubles. */
	async add(records: readonly NewRecord[]): Promise<void> {
		const added = await this.#write(['unshared'], async (transaction) => {
			const unshared = transaction.objectStore('unshared');
			const kept: UnsharedRecord[] = [];
			for (const record of records) {
				if ((await unshared.index('id').getKey(record.id)) !== undefined) continue;
				// The key generator gives `order`.
				const order = await unshared.add({ ...record, state: 'waiting' } as UnsharedRecord);
				kept.push({ ...record, state: 'waiting', order });
			}
			return kept;
		});
		for (const record of added) this.#remembered.set(record.id, record);
	}

	/** All unshared entries in order of writing. */
	async unshared(): Promise<UnsharedRecord[]> {
		const records = await this.#read((db) => db.getAll('unshared'));
		this.#remembered = new Map(records.map((record) => [record.id, record]));
		return records;
	}

	/**
	 * Takes the next entries to be sent and marks them as being sent, in one transaction, so that an undo in another
	 * tab comes either before (and they are not sent) or after (and it is told that it is too late). Groups stay whole.
	 */
	async claim(
		audience: string,
		except: { has(id: EntryId): boolean; readonly size: number },
		most: { readonly entries: number; readonly bytes: number }
	): Promise<UnsharedRecord[]> {
		return this.#write(['unshared'], async (transaction) => {
			const claimed: UnsharedRecord[] = [];
			let group: UnsharedRecord[] = [];
			let bytes = 0;
			const fits = () => {
				const sum = group.reduce((total, record) => total + record.bytes, bytes);
				const alone = claimed.length === 0 && except.size === 0;
				const fitting = alone || (claimed.length + group.length <= most.entries && sum <= most.bytes);
				if (fitting) {
					claimed.push(...group);
					bytes = sum;
				}
				group = [];
				return fitting;
			};
			let cursor = await transaction.objectStore('unshared').openCursor();
			let full = false;
			while (cursor) {
				const record = cursor.value;
				if (record.audience === audience && record.state !== 'refused' && !except.has(record.id)) {
					if (group.length > 0 && group[0]!.group !== record.group && !fits()) {
						full = true;
						break;
					}
					group.push(record);
				}
				cursor = await cursor.continue();
			}
			if (!full && group.length > 0) fits();
			for (const record of claimed) {
				if (record.state === 'waiting') {
					await transaction.objectStore('unshared').put({ ...record, state: 'sending' });
				}
			}
			return claimed;
		});
	}

	/** The club has these in committed rows: the only way by which an entry leaves the store but for undo. */
	async accept(ids: readonly EntryId[]): Promise<EntryId[]> {
		return this.#write(['unshared'], async (transaction) => {
			const left: EntryId[] = [];
			for (const id of ids) {
				const record = await transaction.objectStore('unshared').index('id').get(id);
				// The club has the id with another text, so this one is not shared.
				if (!record || record.reason === 'other-text') continue;
				await transaction.objectStore('unshared').delete(record.order);
				left.push(id);
			}
			for (const id of left) this.#remembered.delete(id);
			return left;
		});
	}

	/** Marks the whole group of an entry as refused; a person has to look. */
	async refuse(id: EntryId, reason: RefusalReason): Promise<EntryId[]> {
		return this.#write(['unshared'], async (transaction) => {
			const unshared = transaction.objectStore('unshared');
			const record = await unshared.index('id').get(id);
			if (!record) return [];
			const group = await unshared.index('group').getAll(record.group);
			for (const one of group) await unshared.put({ ...one, state: 'refused', reason });
			return group.map((one) => one.id);
		});
	}

	/** Takes back an entry and those written together with it, unless it is already on its way to the club. */
	async undo(id: EntryId): Promise<UndoResult> {
		return this.#write<UndoResult>(['unshared'], async (transaction) => {
			const unshared = transaction.objectStore('unshared');
			const record = await unshared.index('id').get(id);
			if (!record) return 'not-here';
			const group = await unshared.index('group').getAll(record.group);
			if (group.some((one) => one.state === 'sending')) return 'already-sending';
			for (const one of group) await unshared.delete(one.order);
			for (const one of group) this.#remembered.delete(one.id);
			return group.map((one) => one.id);
		});
	}

	/** Before a copy is dropped: what it held that the club may have lost. */
	async addCandidates(records: readonly CandidateRecord[]): Promise<void> {
		if (records.length === 0) return;
		await this.#write(['candidates'], async (transaction) => {
			for (const record of records) await transaction.objectStore('candidates').put(record);
		});
	}

	candidates(): Promise<CandidateRecord[]> {
		return this.#read((db) => db.getAll('candidates'));
	}

	/** The club has answered about candidates: what it lacks goes back into the store if own, else aside. */
	async settleCandidates(
		has: readonly EntryId[],
		lacks: readonly (NewRecord & { own: boolean })[]
	): Promise<void> {
		if (has.length + lacks.length === 0) return;
		await this.#write(['unshared', 'candidates', 'aside'], async (transaction) => {
			const unshared = transaction.objectStore('unshared');
			for (const id of has) {
				await transaction.objectStore('candidates').delete(id);
				await transaction.objectStore('aside').delete(id);
			}
			for (const { own, ...record } of lacks) {
				await transaction.objectStore('candidates').delete(record.id);
				if (!own) {
					const { id, text, audience } = record;
					await transaction.objectStore('aside').put({ id, text, audience, own });
				} else if ((await unshared.index('id').getKey(record.id)) === undefined) {
					// It was shared once, so others may have seen it: it cannot be taken back.
					await unshared.add({ ...record, state: 'sending' } as UnsharedRecord);
				}
			}
		});
		await this.unshared();
	}

	aside(): Promise<CandidateRecord[]> {
		return this.#read((db) => db.getAll('aside'));
	}

	async addAside(records: readonly CandidateRecord[]): Promise<void> {
		await this.#write(['aside'], async (transaction) => {
			for (const record of records) await transaction.objectStore('aside').put(record);
		});
	}

	volume(digest: string): Promise<VolumeRecord | undefined> {
		return this.#read((db) => db.get('volumes', digest));
	}

	volumeDigests(): Promise<string[]> {
		return this.#read((db) => db.getAllKeys('volumes'));
	}

	async addVolume(record: VolumeRecord): Promise<void> {
		await this.#write(['volumes'], (transaction) => transaction.objectStore('volumes').put(record));
	}

	/** One step: the new manifest is what counts, and volumes that it does not name are gone. */
	async moveTo(
		manifest: unknown,
		keep: ReadonlySet<string>,
		candidates: readonly CandidateRecord[]
	): Promise<void> {
		await this.#write(['meta', 'volumes', 'candidates'], async (transaction) => {
			for (const record of candidates) await transaction.objectStore('candidates').put(record);
			await transaction.objectStore('meta').put(manifest, 'manifest');
			for (const digest of await transaction.objectStore('volumes').getAllKeys()) {
				if (!keep.has(digest)) await transaction.objectStore('volumes').delete(digest);
			}
		});
	}

	async meta<Value>(key: string): Promise<Value | undefined> {
		return (await this.#read((db) => db.get('meta', key))) as Value | undefined;
	}

	async setMeta(key: string, value: unknown): Promise<void> {
		await this.#write(['meta'], (transaction) => transaction.objectStore('meta').put(value, key));
	}

	/** Closes without deleting; the object must not be used after it. */
	async close(): Promise<void> {
		this.#closed = true;
		const db = await this.#opening?.catch(() => undefined);
		db?.close();
	}

	#database(): Promise<IDBPDatabase<DeviceSchema>> {
		if (this.#closed) return Promise.reject(new DeviceError('storage-failed', 'the store was closed'));
		this.#opening ??= this.#openAndPutBack().catch((error: unknown) => {
			this.#opening = undefined;
			throw asDeviceError(error);
		});
		return this.#opening;
	}

	async #openAndPutBack(): Promise<IDBPDatabase<DeviceSchema>> {
		const { db, created } = await openDeviceDatabase(this.name, () => {
			this.#opening = undefined;
			if (this.#closed) return;
			this.#gone = true;
			// Puts back at once, not at the next use: the page may be closed before there is one.
			this.#database().catch(() => {});
		});
		if (!this.#gone) {
			this.created = created;
			return db;
		}
		this.#gone = false;
		const transaction = db.transaction('unshared', 'readwrite', { durability: 'strict' });
		let count = 0;
		for (const record of this.#remembered.values()) {
			if ((await transaction.store.index('id').getKey(record.id)) !== undefined) continue;
			await transaction.store.put(record);
			count++;
		}
		await transaction.done;
		this.#watch.putBack(count);
		return db;
	}

	async #read<Value>(work: (db: IDBPDatabase<DeviceSchema>) => Promise<Value>): Promise<Value> {
		for (let attempt = 0; ; attempt++) {
			try {
				return await work(await this.#database());
			} catch (error) {
				if (attempt === 0 && this.#wasClosedUnderUs(error)) continue;
				throw asDeviceError(error);
			}
		}
	}

	async #write<Value>(
		stores: DeviceStoreName[],
		work: (transaction: Writing) => Promise<Value>
	): Promise<Value> {
		for (let attempt = 0; ; attempt++) {
			try {
				const db = await this.#database();
				const transaction = db.transaction(stores, 'readwrite', { durability: 'strict' });
				const done = transaction.done;
				// The failure of a transaction is awaited below; without this it would also be reported as unhandled.
				done.catch(() => {});
				try {
					const value = await work(transaction);
					await done;
					return value;
				} catch (error) {
					abort(transaction);
					// An aborted transaction knows the reason (no room); the request only knows that it was aborted.
					throw transaction.error ?? error;
				}
			} catch (error) {
				if (attempt === 0 && this.#wasClosedUnderUs(error)) continue;
				if (attempt < 2 && isNoRoom(error) && (await this.#makeRoom())) continue;
				throw asDeviceError(error);
			}
		}
	}

	/** The saved fold can be computed again, so it goes before anything that a person wrote. */
	async #makeRoom(): Promise<boolean> {
		try {
			const db = await this.#database();
			if ((await db.getKey('meta', 'savedFold')) === undefined) return false;
			await db.delete('meta', 'savedFold');
			this.#watch.madeRoom();
			return true;
		} catch {
			return false;
		}
	}

	#wasClosedUnderUs(error: unknown): boolean {
		const name = error instanceof Error || error instanceof DOMException ? error.name : '';
		if (this.#closed || (name !== 'InvalidStateError' && name !== 'AbortError' && name !== 'NotFoundError'))
			return false;
		if (name === 'InvalidStateError') {
			this.#gone ||= this.#opening !== undefined;
			this.#opening = undefined;
		}
		return true;
	}
}

function abort(transaction: Writing): void {
	try {
		transaction.abort();
	} catch {
		// It is over already.
	}
}

function isNoRoom(error: unknown): boolean {
	return error instanceof DOMException && error.name === 'QuotaExceededError';
}

function asDeviceError(error: unknown): DeviceError {
	if (error instanceof DeviceError) return error;
	return new DeviceError(isNoRoom(error) ? 'storage-full' : 'storage-failed', error);
}
