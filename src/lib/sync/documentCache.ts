/**
 * y-indexeddb as a cache of the open document. Nothing depends on it: whatever it holds can be fetched again or is in
 * the store of unshared entries. So a failure here is noted and never stops anything else.
 */
import { IndexeddbPersistence, clearDocument, storeState } from 'y-indexeddb';
import * as Y from 'yjs';

/** Longer than any healthy disk takes; after this the app goes on without the cache. */
const loadTimeoutMs = 4_000;
/** y-indexeddb adds a record at each page load and tidies only at 500; a phone should not carry that many. */
const tidyAtRecords = 50;

interface PersistenceParts {
	_db: Promise<IDBDatabase>;
	_dbsize: number;
	_storeUpdate(update: Uint8Array, origin: unknown): void;
}

export class DocumentCache {
	readonly #name: string;
	#persistence: IndexeddbPersistence | undefined;
	#detach: (() => void) | undefined;

	constructor(name: string) {
		this.#name = name;
	}

	/** Loads what is kept into the document, then keeps what is added. Resolves also when the cache does not work. */
	async attach(doc: Y.Doc): Promise<boolean> {
		const persistence = new IndexeddbPersistence(this.#name, doc);
		this.#persistence = persistence;
		const parts = persistence as unknown as PersistenceParts;
		// y-indexeddb throws inside the document's update event once its database is gone, which would keep the update
		// from whoever listens after it, the socket for one.
		doc.off('update', parts._storeUpdate);
		const keep = (update: Uint8Array, origin: unknown) => {
			try {
				parts._storeUpdate(update, origin);
			} catch {
				this.#detach?.();
			}
		};
		doc.on('update', keep);
		this.#detach = () => doc.off('update', keep);
		const loaded = await Promise.race([
			persistence.whenSynced.then(() => true),
			parts._db.then(
				() => new Promise<boolean>(() => {}),
				() => false
			),
			new Promise<boolean>((resolve) => setTimeout(() => resolve(false), loadTimeoutMs))
		]);
		if (!loaded) this.#detach();
		else if (parts._dbsize >= tidyAtRecords) storeState(persistence, true).catch(() => {});
		return loaded;
	}

	async close(): Promise<void> {
		this.#detach?.();
		const persistence = this.#persistence;
		this.#persistence = undefined;
		await persistence?.destroy().catch(() => {});
	}

	async clear(): Promise<void> {
		await this.close();
		await clearDocument(this.#name).catch(() => {});
	}
}

/** What another tab keeps, read without joining in: y-indexeddb writes a record wherever it is opened. */
export async function readDocumentCache(name: string, doc: Y.Doc): Promise<void> {
	const db = await new Promise<IDBDatabase | null>((resolve) => {
		const request = indexedDB.open(name);
		request.onupgradeneeded = () => request.transaction!.abort();
		request.onsuccess = () => resolve(request.result);
		request.onerror = () => resolve(null);
	});
	if (!db) return;
	db.onversionchange = () => db.close();
	try {
		if (!db.objectStoreNames.contains('updates')) return;
		const updates = await new Promise<Uint8Array[]>((resolve, reject) => {
			const request = db.transaction('updates').objectStore('updates').getAll();
			request.onsuccess = () => resolve(request.result as Uint8Array[]);
			request.onerror = () => reject(request.error ?? new Error('updates could not be read'));
		});
		doc.transact(() => updates.forEach((update) => Y.applyUpdate(doc, update)), 'cache');
	} catch {
		// The cache is a help, not a need.
	} finally {
		db.close();
	}
}
