/**
 * An honest device for seeded runs, straight on the ledger without a socket: a Yjs document that may be lost, a store
 * of unshared entries that is kept, and a wire that can break with frames under way.
 */
import * as decoding from 'lib0/decoding';
import * as encoding from 'lib0/encoding';
import { readSyncMessage, writeSyncStep1, writeUpdate } from 'y-protocols/sync';
import * as Y from 'yjs';
import { documentKey, entriesRoot } from '#protocol/document.ts';
import { kithlineMessage, type ServerMessage } from '#protocol/messages.ts';
import type { ReasonName } from '#protocol/reasons.ts';
import type { Connection } from '#server/ledger/connection.ts';
import type { Ledger } from '#server/ledger/ledger.ts';

const clubId = 'club-1';

export class SimulatedDevice {
	doc = new Y.Doc();
	client = 0;
	readonly unshared = new Map<string, string>();
	readonly shared = new Map<string, number>();
	readonly refused = new Map<string, string>();
	readonly closedBy: ReasonName[] = [];
	readonly #ledger: Ledger;
	readonly #who: { member: string; device: string };
	readonly #random: () => number;
	#document = '';
	#edition = '';
	#highest = { edition: '', n: 0, id: '' };
	#connection: Connection | null = null;
	/** Frames under way, and the wire they belong to. */
	#up: Uint8Array[] = [];
	#down: Uint8Array[] = [];
	#wire = 0;
	#isKnown = false;
	#added = new Set<string>();

	constructor(ledger: Ledger, who: { member: string; device: string }, random: () => number) {
		this.#ledger = ledger;
		this.#who = who;
		this.#random = random;
		this.loseDocument();
	}

	get isConnected(): boolean {
		return this.#connection !== null;
	}

	/** The browser's copy is gone; the store is kept. */
	loseDocument(): void {
		this.disconnect();
		this.doc = new Y.Doc();
		this.#added.clear();
		this.#newLog();
		this.doc.on('update', (update: Uint8Array, origin: unknown) => {
			if (origin === 'server') return;
			this.#send((encoder) => {
				encoding.writeVarUint(encoder, 0);
				writeUpdate(encoder, update);
			});
		});
	}

	#newLog(): void {
		this.client = 2 ** 32 + Math.floor(this.#random() * (2 ** 53 - 2 ** 33));
		this.doc.clientID = this.client;
		this.#added = new Set();
	}

	#send(write: (encoder: encoding.Encoder) => void): void {
		if (!this.#connection) return;
		const encoder = encoding.createEncoder();
		write(encoder);
		this.#up.push(encoding.toUint8Array(encoder));
	}

	write(texts: readonly string[]): void {
		for (const text of texts) this.unshared.set((JSON.parse(text) as { id: string }).id, text);
		this.#pump();
	}

	/** What the club lacks is added in order of writing, a writing at a time. */
	#pump(): void {
		if (!this.#connection || !this.#isKnown) return;
		const done = new Set<string>();
		for (const [id, text] of this.unshared) {
			if (this.#added.has(id) || done.has(id)) continue;
			const { together = [id] } = JSON.parse(text) as { together?: string[] };
			const ids = together.filter((other) => this.unshared.has(other));
			for (const each of ids) done.add(each);
			this.#add(ids);
		}
	}

	#add(ids: readonly string[]): void {
		// Yjs draws another id when it meets its own in what the server sends: another device has used it.
		if (this.doc.clientID !== this.client) this.#newLog();
		this.doc.transact(() => {
			for (const id of ids) {
				const clock = Y.getState(this.doc.store, this.client);
				this.doc.getMap(entriesRoot).set(documentKey(this.client, clock), this.unshared.get(id)!);
				this.#added.add(id);
			}
		});
	}

	async connect(): Promise<void> {
		const manifest = await this.#ledger.manifest(clubId, ['club']);
		const { document } = manifest.audiences[0]!;
		if (document !== this.#document) this.loseDocument();
		[this.#document, this.#edition] = [document, manifest.edition];
		if (this.#highest.edition !== this.#edition) this.#highest = { edition: this.#edition, n: 0, id: '' };
		const wire = (this.#wire += 1);
		[this.#up, this.#down, this.#isKnown] = [[], [], false];
		this.#connection = await this.#ledger.connect(
			{
				send: (frame) => void (wire === this.#wire && this.#down.push(frame)),
				close: (reason) => {
					this.closedBy.push(reason);
					if (wire === this.#wire) this.#connection = null;
				},
				unsentBytes: 0
			},
			{ club: clubId, document, edition: manifest.edition, ...this.#who }
		);
		this.#send((encoder) => {
			encoding.writeVarUint(encoder, 0);
			writeSyncStep1(encoder, this.doc);
		});
		const { n, id } = this.#highest;
		const mine = {
			type: 'mine',
			ids: [...this.unshared.keys()],
			logs: [{ client: this.client, clock: Y.getState(this.doc.store, this.client) }],
			highestRow: n,
			...(n > 0 ? { highestId: id } : {})
		};
		this.#say(mine);
	}

	#say(message: unknown): void {
		this.#send((encoder) => {
			encoding.writeVarUint(encoder, kithlineMessage);
			encoding.writeVarString(encoder, JSON.stringify(message));
		});
	}

	/** The wire breaks; what was under way is gone. */
	disconnect(): void {
		this.#wire += 1;
		this.#connection?.left();
		this.#connection = null;
		[this.#up, this.#down] = [[], []];
	}

	/** Moves some frames along, in order. Gives whether anything moved. */
	step(): boolean {
		const [up, down] = [this.#up.shift(), this.#down.shift()];
		if (up) this.#connection?.receive(up);
		if (down) this.#receive(down);
		return Boolean(up ?? down);
	}

	#receive(frame: Uint8Array): void {
		const decoder = decoding.createDecoder(frame);
		const type = decoding.readVarUint(decoder);
		if (type === kithlineMessage) {
			this.#hear(JSON.parse(decoding.readVarString(decoder)) as ServerMessage);
			return;
		}
		const encoder = encoding.createEncoder();
		encoding.writeVarUint(encoder, 0);
		readSyncMessage(decoder, encoder, this.doc, 'server');
		if (encoding.length(encoder) > 1) this.#up.push(encoding.toUint8Array(encoder));
	}

	#hear(message: ServerMessage): void {
		if (message.type === 'accepted')
			for (const [id, n] of message.ids) {
				this.shared.set(id, n);
				this.unshared.delete(id);
				if (n > this.#highest.n) this.#highest = { ...this.#highest, n, id };
			}
		else if (message.type === 'known') {
			for (const { id } of message.ids) {
				this.shared.set(id, 0);
				this.unshared.delete(id);
			}
			this.#isKnown = true;
			if (message.notYours.includes(this.client)) this.loseDocument();
			else this.#pump();
		} else if (message.type === 'refused') {
			this.refused.set(message.id, message.reason);
			this.unshared.delete(message.id);
			this.#newLog();
			this.#pump();
		} else if (message.type === 'fetch-anew') this.loseDocument();
		else if (message.client === this.client) {
			if (message.type === 'log-damaged') {
				this.#newLog();
				this.#pump();
			} else if (message.type === 'later') this.#pauseThenSendFrom(message.clock);
			else this.#sendFrom(message.clock);
		}
	}

	/** Gives the server a turn, as a device must when it is told "later". */
	#pauseThenSendFrom(clock: number): void {
		const wire = this.#wire;
		setImmediate(() => {
			if (wire === this.#wire) this.#sendFrom(clock);
		});
	}

	#sendFrom(clock: number): void {
		const vector = Y.decodeStateVector(Y.encodeStateVector(this.doc));
		vector.set(this.client, clock);
		const update = Y.encodeStateAsUpdate(this.doc, Y.encodeStateVector(vector));
		this.#send((encoder) => {
			encoding.writeVarUint(encoder, 0);
			writeUpdate(encoder, update);
		});
	}
}
