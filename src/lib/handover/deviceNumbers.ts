/**
 * The bag numbers of this device, kept in a small database of their own: taken in one transaction, so that two tabs
 * never give out one number, and there without any signal. Its name begins with that of the device's store, so that
 * signing out deletes it with the rest.
 */
import type { NumbersGiven } from '#protocol/api.ts';
import {
	blocksWanted,
	noNumbers,
	numbersLeft,
	takeNumber,
	withBlocks,
	withUsed,
	type HeldNumbers,
	type NumberBlock
} from './numberBlocks.ts';

/**
 * Asks the club for blocks. `request` names the asking: asked again after an answer was lost, it gets the same blocks.
 */
export type AskForBlocks = (request: string, blocks: number) => Promise<readonly NumberBlock[]>;

interface Kept extends HeldNumbers {
	/** A request under way, or whose answer was lost. */
	readonly asking: { readonly request: string; readonly blocks: number } | null;
}

const nothing: Kept = { ...noNumbers, asking: null };
const key = 'numbers';

export class DeviceNumbers {
	readonly #name: string;
	readonly #ask: AskForBlocks;
	readonly #watchers = new Set<(left: number) => void>();
	#database: Promise<IDBDatabase> | undefined;
	#refilling: Promise<void> | undefined;

	constructor(club: string, member: string, ask: AskForBlocks) {
		this.#name = `kithline:${encodeURIComponent(club)}:${encodeURIComponent(member)}:numbers`;
		this.#ask = ask;
	}

	/** The next number, given out for good; null when none is left ("write a number of your own block later"). */
	async take(): Promise<string | null> {
		let taken: string | null = null;
		await this.#change((kept) => {
			const next = takeNumber(kept);
			taken = next?.number ?? null;
			return next ? { ...kept, ...next.held } : kept;
		});
		return taken;
	}

	/** The number that `take` would give, still free. */
	async next(): Promise<string | null> {
		return takeNumber(await this.#read())?.number ?? null;
	}

	/** A label of this device was used: what lies before it in its block was printed and is spent too. */
	async used(number: string): Promise<void> {
		const count = Number(number.slice(0, -1));
		if (Number.isSafeInteger(count)) await this.#change((kept) => ({ ...kept, ...withUsed(kept, count) }));
	}

	/** Numbers for labels to be printed ahead: they are given out for good. */
	async takeMany(count: number): Promise<string[]> {
		const taken: string[] = [];
		await this.#change((kept) => {
			let held: HeldNumbers = kept;
			for (let next = takeNumber(held); next && taken.length < count; next = takeNumber(held)) {
				taken.push(next.number);
				held = next.held;
			}
			return { ...kept, ...held };
		});
		return taken;
	}

	async left(): Promise<number> {
		return numbersLeft(await this.#read());
	}

	/** Called at once and at every change on this page. @returns stops it */
	watch(tell: (left: number) => void): () => void {
		this.#watchers.add(tell);
		this.left().then(tell, () => {});
		return () => this.#watchers.delete(tell);
	}

	/** Asks for blocks when fewer than two untouched ones are left; does nothing otherwise. Rejects without a signal. */
	refill(): Promise<void> {
		this.#refilling ??= this.#refillNow().finally(() => (this.#refilling = undefined));
		return this.#refilling;
	}

	async close(): Promise<void> {
		this.#watchers.clear();
		const opening = this.#database;
		this.#database = undefined;
		(await opening?.catch(() => undefined))?.close();
	}

	async #refillNow(): Promise<void> {
		// The request's name is kept before it is sent, so that a lost answer is asked for again and nothing is wasted.
		const kept = await this.#change((before) => {
			const blocks = blocksWanted(before);
			if (before.asking || blocks === 0) return before;
			return { ...before, asking: { request: crypto.randomUUID(), blocks } };
		});
		if (!kept.asking) return;
		const { request, blocks } = kept.asking;
		const given = await this.#ask(request, blocks);
		await this.#change((before) => ({ ...withBlocks(before, given), asking: null }));
	}

	async #read(): Promise<Kept> {
		const database = await this.#open();
		return new Promise((resolve, reject) => {
			const request = database.transaction('kept').objectStore('kept').get(key);
			request.onsuccess = () => resolve((request.result as Kept | undefined) ?? nothing);
			request.onerror = () => reject(request.error ?? new Error('the bag numbers cannot be read'));
		});
	}

	async #change(change: (kept: Kept) => Kept): Promise<Kept> {
		const database = await this.#open();
		const after = await new Promise<Kept>((resolve, reject) => {
			const transaction = database.transaction('kept', 'readwrite', { durability: 'strict' });
			const store = transaction.objectStore('kept');
			const request = store.get(key);
			let changed = nothing;
			request.onsuccess = () => {
				changed = change((request.result as Kept | undefined) ?? nothing);
				store.put(changed, key);
			};
			transaction.oncomplete = () => resolve(changed);
			transaction.onabort = () => reject(transaction.error ?? new Error('the bag numbers cannot be kept'));
		});
		for (const tell of this.#watchers) tell(numbersLeft(after));
		return after;
	}

	#open(): Promise<IDBDatabase> {
		this.#database ??= new Promise<IDBDatabase>((resolve, reject) => {
			const request = indexedDB.open(this.#name, 1);
			request.onupgradeneeded = () => request.result.createObjectStore('kept');
			request.onsuccess = () => {
				const database = request.result;
				// Somebody signs out: holding on would only block them.
				database.onversionchange = () => {
					database.close();
					this.#database = undefined;
				};
				database.onclose = () => (this.#database = undefined);
				resolve(database);
			};
			request.onerror = () => reject(request.error ?? new Error('the bag numbers cannot be opened'));
		}).catch((error: unknown) => {
			this.#database = undefined;
			throw error;
		});
		return this.#database;
	}
}

/** Asks the club's server. */
export function askServerForBlocks(club: string): AskForBlocks {
	return async (request, blocks) => {
		const answer = await fetch(`/api/clubs/${encodeURIComponent(club)}/numbers`, {
			method: 'POST',
			headers: { 'content-type': 'application/json' },
			body: JSON.stringify({ request, blocks })
		});
		if (!answer.ok) throw new Error(`bag numbers were not given: ${answer.status}`);
		return ((await answer.json()) as NumbersGiven).blocks;
	};
}
