/**
 * The open document of one audience: a Yjs document used as a set of logs, one for each client id. `entries` has the
 * entries' texts, `stamps` the server's word on some of them. A key is the log and clock of its own struct, so two
 * logs never set one key and Yjs never deletes anything.
 */
import * as Y from 'yjs';
import type { Entry, EntryId, Stamp } from '#records/entry.ts';
import { documentKey, entriesRoot, stampsRoot } from '#protocol/document.ts';
import { limits } from '#protocol/limits.ts';
import { readEntry } from './readEntry.ts';

export interface LedgerItem {
	readonly text: string;
	/** `null` when the text is not an entry at all. */
	readonly entry: Entry | null;
}

export interface LedgerAddition {
	readonly items: readonly LedgerItem[];
	readonly stamps: readonly Stamp[];
}

export interface LogSlice {
	readonly client: number;
	/** The first clock that is left out. */
	readonly fromClock: number;
}

export class LedgerDocument {
	readonly name: string;
	readonly doc: Y.Doc;
	/** Client id of the log that this page writes; drawn anew for each page that sends, and when it is spoiled. */
	clientId: number;
	/** Called once for each transaction that brought something. */
	onAddition: ((addition: LedgerAddition) => void) | undefined;
	readonly #entries: Y.Map<unknown>;
	readonly #stamps: Y.Map<unknown>;
	readonly #keysById = new Map<EntryId, string[]>();

	constructor(name: string, doc = new Y.Doc({ gc: false })) {
		this.name = name;
		this.doc = doc;
		this.clientId = drawClientId();
		this.doc.clientID = this.clientId;
		this.#entries = doc.getMap(entriesRoot);
		this.#stamps = doc.getMap(stampsRoot);
		doc.on('afterTransaction', (transaction: Y.Transaction) => this.#collect(transaction));
	}

	/** Starts a new log. Also mends what Yjs does by itself when it meets its own id from elsewhere. */
	drawNewLog(): void {
		this.clientId = drawClientId();
		this.doc.clientID = this.clientId;
	}

	/** Adds texts to this page's own log, all in one update. */
	add(texts: readonly string[], origin?: unknown): void {
		if (this.doc.clientID !== this.clientId) this.drawNewLog();
		this.doc.transact(() => {
			for (const text of texts) {
				const clock = Y.getState(this.doc.store, this.clientId);
				this.#entries.set(documentKey(this.clientId, clock), text);
			}
		}, origin);
		if (this.doc.clientID !== this.clientId) this.drawNewLog();
	}

	/** Log and clock of each struct that holds this entry; a union of logs may hold it several times. */
	positions(id: EntryId): { readonly client: number; readonly clock: number }[] {
		return (this.#keysById.get(id) ?? []).map(readLedgerKey);
	}

	textOf(id: EntryId): string | null {
		const key = this.#keysById.get(id)?.[0];
		const value = key === undefined ? null : this.#entries.get(key);
		return typeof value === 'string' ? value : null;
	}

	has(id: EntryId): boolean {
		return this.#keysById.has(id);
	}

	/** Clock after the last struct of a log; 0 = none. */
	clockOf(client: number): number {
		return Y.getState(this.doc.store, client);
	}

	logs(): number[] {
		return [...this.doc.store.clients.keys()];
	}

	/** Everything in it now: for a fold that starts over, and for what is put back before a copy is dropped. */
	everything(): LedgerAddition {
		const items: LedgerItem[] = [];
		const stamps: Stamp[] = [];
		for (const value of this.#entries.values()) if (typeof value === 'string') items.push(readItem(value));
		for (const value of this.#stamps.values()) pushStamp(stamps, value);
		return { items, stamps };
	}

	/** Entries of one log from a clock on. */
	entriesOf(client: number, fromClock = 0): LedgerItem[] {
		const items: LedgerItem[] = [];
		const end = this.clockOf(client);
		for (let clock = fromClock; clock < end; clock++) {
			const value = this.#entries.get(documentKey(client, clock));
			if (typeof value === 'string') items.push(readItem(value));
		}
		return items;
	}

	wholeUpdate(): Uint8Array {
		return Y.encodeStateAsUpdate(this.doc);
	}

	/** One log from a clock on, as an update. */
	updateFrom(client: number, clock: number): Uint8Array {
		const vector = new Map<number, number>();
		for (const log of this.logs()) vector.set(log, this.clockOf(log));
		vector.set(client, clock);
		return Y.encodeStateAsUpdate(this.doc, Y.encodeStateVector(vector));
	}

	/**
	 * A new document with the same logs but for the ends that are named. Each log is written again in its own order
	 * under its own client id, which gives the same structs, since no struct depends on another log.
	 */
	copyWithout(ends: readonly LogSlice[]): LedgerDocument {
		const cut = new Map(ends.map((end) => [end.client, end.fromClock]));
		const copy = new LedgerDocument(this.name);
		for (const [client, structs] of this.doc.store.clients) {
			const end = Math.min(cut.get(client) ?? Infinity, this.clockOf(client));
			copy.doc.clientID = client;
			copy.doc.transact(() => {
				for (const struct of structs) {
					if (struct.id.clock >= end || !(struct instanceof Y.Item) || struct.parentSub === null) break;
					const root = struct.parent === this.#stamps ? copy.#stamps : copy.#entries;
					root.set(struct.parentSub, struct.content.getContent()[0]);
				}
			});
		}
		copy.doc.clientID = copy.clientId;
		return copy;
	}

	#collect(transaction: Y.Transaction): void {
		const items: LedgerItem[] = [];
		const stamps: Stamp[] = [];
		for (const key of transaction.changed.get(this.#entries as never) ?? []) {
			const value = key === null ? undefined : this.#entries.get(key);
			if (typeof value !== 'string' || key === null) continue;
			const item = readItem(value);
			items.push(item);
			if (item.entry) {
				const keys = this.#keysById.get(item.entry.id);
				if (keys === undefined) this.#keysById.set(item.entry.id, [key]);
				else if (!keys.includes(key)) keys.push(key);
			}
		}
		for (const key of transaction.changed.get(this.#stamps as never) ?? []) {
			if (key !== null) pushStamp(stamps, this.#stamps.get(key));
		}
		if (items.length + stamps.length > 0) this.onAddition?.({ items, stamps });
	}
}

function readLedgerKey(key: string): { client: number; clock: number } {
	const [client, clock] = key.split('.');
	return { client: Number.parseInt(client!, 36), clock: Number(clock) };
}

/** A client id that no other page has drawn, as far as chance allows: 2^53 possibilities. */
export function drawClientId(): number {
	for (;;) {
		const [high, low] = crypto.getRandomValues(new Uint32Array(2));
		const drawn = (high! >>> 11) * 2 ** 32 + low!;
		if (drawn >= limits.lowestClientId && drawn <= limits.highestClientId) return drawn;
	}
}

function readItem(text: string): LedgerItem {
	return { text, entry: readEntry(text) };
}

function pushStamp(stamps: Stamp[], value: unknown): void {
	let stamp = value;
	if (typeof value === 'string') {
		try {
			stamp = JSON.parse(value);
		} catch {
			return;
		}
	}
	const { id, n, time } = (stamp ?? {}) as Partial<Stamp>;
	if (typeof id === 'string' && typeof n === 'number' && typeof time === 'number')
		stamps.push({ id, n, time });
}
