/**
 * One audience's way to the club: its open document, cache and socket, and what this device still has to share there.
 *
 * After each connect: `mine` (ids in the store, own logs) -> `known` (ids the club has) -> what it lacks is added in
 * order of writing, a bounded amount ahead of the answers -> `accepted` takes it out of the store. Whatever goes wrong
 * ends in one of two ways: the document is written again without the spoilt end of a log, or dropped and fetched anew.
 * Either way what is unshared is in the store, so it is added again, and nothing is lost or stuck.
 * This file is long because the answers and what each sets off are one state machine that is only understood whole.
 */
import type { Audience, EntryId } from '#records/entry.ts';
import { limits } from '#protocol/limits.ts';
import type { KnownMessage, ServerMessage } from '#protocol/messages.ts';
import { reasons } from '#protocol/reasons.ts';
import { Connection, type Address } from './connection.ts';
import type { CandidateRecord } from './deviceDatabase.ts';
import type { DeviceStore } from './deviceStore.ts';
import { DocumentCache } from './documentCache.ts';
import { LedgerDocument, type LedgerAddition, type LogSlice } from './ledgerDocument.ts';
import { readEntry } from './readEntry.ts';
import { unsharedRecord } from './unsharedFile.ts';

/** Refusals come in a row; one rewriting of the document for all of them. */
const mendDelayMs = 30;
/** Longest wait for an answer on an open socket before asking again from the start. */
const answerTimeoutMs = 20_000;
const laterFirstMs = 1_000;
const laterLongestMs = 30_000;
/** Ids in one `mine`; about 400 kB, well below a frame. */
const idsInOneMine = 10_000;

export interface LinkEvents {
	addition(addition: LedgerAddition): void;
	/** An update of the document, for the other tabs. */
	update(update: Uint8Array): void;
	/** The document object was replaced by one with less in it; folds read it again. */
	replaced(): void;
	storeChanged(): void;
	/** These have left the store: the club has them. */
	shared(ids: readonly EntryId[]): void;
	/** The highest row that an answer named, and the entry in it. */
	row(row: number, id: EntryId): void;
	erased(ids: readonly EntryId[]): void;
	serverTime(ms: number): void;
	cutOff(): void;
	/** The club has said what it has, and its document is here. */
	caughtUp(): void;
	finalClose(code: number): void;
	/** The manifest has to be asked for again. `copyIsStale`: the copy of the open document must go, too. */
	moved(copyIsStale: boolean): void;
	problem(error: unknown): void;
}

export interface LinkParts {
	readonly audience: Audience;
	readonly address: Address;
	readonly member: string;
	readonly store: DeviceStore;
	readonly highestRow: () => { readonly row: number; readonly id?: EntryId };
	readonly events: LinkEvents;
}

export class AudienceLink {
	readonly audience: Audience;
	readonly address: Address;
	ledger: LedgerDocument;
	readonly #parts: LinkParts;
	readonly #store: DeviceStore;
	readonly #events: LinkEvents;
	#cache: DocumentCache;
	#connection: Connection | undefined;
	#ownLogs = new Set<number>();
	/** Sent on this socket and not answered yet: id -> bytes. */
	readonly #awaiting = new Map<EntryId, number>();
	#hearing: Promise<void> = Promise.resolve();
	/** Answers to `mine` still to come, and what they said so far. */
	#mineLeft = 0;
	#knownIds = new Map<EntryId, 'open' | 'volume' | 'erased'>();
	#known = false;
	#answered = false;
	#paused = false;
	#laterMs = laterFirstMs;
	#pumping = false;
	#pumpAgain = false;
	#closed = false;
	#wanted = false;
	#damage = new Map<number, number>();
	#timers = new Map<string, ReturnType<typeof setTimeout>>();

	constructor(parts: LinkParts) {
		this.#parts = parts;
		this.audience = parts.audience;
		this.address = parts.address;
		this.#store = parts.store;
		this.#events = parts.events;
		this.ledger = new LedgerDocument(parts.address.document);
		this.#cache = new DocumentCache(this.cacheName);
	}

	get cacheName(): string {
		return `${this.#store.name}:${this.address.document}`;
	}

	/** Loads the cached copy; works with no network. The socket is opened by `connect`, never before this is done. */
	async load(): Promise<void> {
		this.#ownLogs = new Set(await this.#store.meta<number[]>(this.#logsKey));
		await this.#cache.attach(this.ledger.doc);
		this.#listen();
	}

	async rememberLogs(): Promise<void> {
		await this.#store.setMeta(this.#logsKey, [...this.#ownLogs]);
	}

	connect(): void {
		if (this.#closed) return;
		this.#wanted = true;
		this.#connection ??= this.#newConnection();
		this.#connection.connect();
	}

	disconnect(): void {
		this.#wanted = false;
		this.#connection?.disconnect();
	}

	/** Something new is in the store. */
	pump(): void {
		this.#pumpAgain = true;
		if (this.#pumping || this.#closed) return;
		this.#pumping = true;
		void this.#pumpAll()
			.catch((error: unknown) => this.#events.problem(error))
			.finally(() => {
				this.#pumping = false;
				if (this.#pumpAgain && this.#ready) this.pump();
			});
	}

	/** What a dropped copy held, for the club to be asked about. */
	candidates(): CandidateRecord[] {
		return this.ledger.everything().items.flatMap(({ entry, text }) => {
			if (!entry) return [];
			return [{ id: entry.id, text, audience: this.audience, own: entry.by === this.#parts.member }];
		});
	}

	async close({ dropCache = false } = {}): Promise<void> {
		this.#closed = true;
		for (const timer of this.#timers.values()) clearTimeout(timer);
		this.#connection?.destroy();
		this.#connection = undefined;
		this.ledger.onAddition = undefined;
		if (dropCache) await this.#cache.clear();
		else await this.#cache.close();
		this.ledger.doc.destroy();
	}

	get #logsKey(): string {
		return `logs:${this.address.document}`;
	}

	get #ready(): boolean {
		return (
			this.#known &&
			this.#answered &&
			!this.#paused &&
			!this.#closed &&
			this.#connection?.isConnected === true
		);
	}

	#listen(): void {
		const { doc } = this.ledger;
		this.ledger.onAddition = (addition) => this.#events.addition(addition);
		doc.on('update', (update: Uint8Array) => this.#events.update(update));
	}

	#newConnection(): Connection {
		return new Connection(this.ledger.doc, this.address, {
			opened: () => void this.#hello().catch((error: unknown) => this.#events.problem(error)),
			answered: (serverHas) => this.#inOrder(() => this.#afterAnswer(serverHas)),
			tooFarApart: () => this.#events.moved(true),
			message: (message) => this.#inOrder(() => this.#hear(message)),
			closed: (code, isFinal) => this.#afterClose(code, isFinal)
		});
	}

	async #hello(): Promise<void> {
		this.#known = false;
		this.#answered = false;
		this.#paused = false;
		this.#awaiting.clear();
		const connection = this.#connection;
		const unshared = (await this.#store.unshared()).filter((record) => record.audience === this.audience);
		const candidates = (await this.#store.candidates()).filter((record) => record.audience === this.audience);
		const aside = (await this.#store.aside()).filter((record) => record.audience === this.audience);
		if (connection !== this.#connection || !connection?.isConnected) return;
		const ids = [...unshared, ...candidates, ...aside].map((record) => record.id);
		const logs = [...this.#ownLogs].flatMap((client) => {
			const clock = this.ledger.clockOf(client);
			return clock > 0 ? [{ client, clock }] : [];
		});
		const highest = this.#parts.highestRow();
		this.#mineLeft = Math.max(1, Math.ceil(ids.length / idsInOneMine));
		this.#knownIds = new Map();
		for (let start = 0; start === 0 || start < ids.length; start += idsInOneMine) {
			connection.send({
				type: 'mine',
				ids: ids.slice(start, start + idsInOneMine),
				logs: start === 0 ? logs : [],
				highestRow: highest.row,
				...(highest.id === undefined ? {} : { highestId: highest.id })
			});
		}
		this.#watchAnswers();
	}

	/** One after the other, in the order in which they came. */
	#inOrder(work: () => Promise<void>): void {
		this.#hearing = this.#hearing.then(work).catch((error: unknown) => this.#events.problem(error));
	}

	async #afterAnswer(serverHas: ReadonlyMap<number, number>): Promise<void> {
		// What went out just now counts as sent; it must not be added a second time in another log.
		const bytes = new Map((await this.#store.unshared()).map((record) => [record.id, record.bytes]));
		for (const client of this.#ownLogs) {
			for (const { entry } of this.ledger.entriesOf(client, serverHas.get(client) ?? 0)) {
				const size = entry && bytes.get(entry.id);
				if (!entry || typeof size !== 'number' || this.#knownIds.has(entry.id)) continue;
				this.#awaiting.set(entry.id, size);
			}
		}
		this.#answered = true;
		if (this.#known) this.#events.caughtUp();
		this.#watchAnswers();
		this.pump();
	}

	async #hear(message: ServerMessage): Promise<void> {
		switch (message.type) {
			case 'known':
				return this.#hearKnown(message);
			case 'accepted':
				return this.#hearAccepted(message.ids, message.serverTime);
			case 'refused':
				return this.#hearRefused(message.id, message.reason);
			case 'send-from':
				return this.#sendFrom(message.client, message.clock);
			case 'later':
				return this.#sendLater(message.client, message.clock);
			case 'log-damaged':
				return this.#mend({ client: message.client, fromClock: 0 });
			case 'fetch-anew':
				return this.#events.moved(true);
		}
	}

	async #hearKnown(message: KnownMessage): Promise<void> {
		this.#events.serverTime(message.serverTime);
		for (const { id, where } of message.ids) this.#knownIds.set(id, where);
		for (const client of message.notYours) {
			this.#ownLogs.delete(client);
			this.#mend({ client, fromClock: 0 });
		}
		if (--this.#mineLeft > 0) return;
		const known = this.#knownIds;
		const others = await this.#otherTexts(known);
		for (const id of others) await this.#store.refuse(id, 'other-text');
		if (others.size > 0) {
			this.#events.replaced();
			this.#events.storeChanged();
		}
		await this.#share([...known.keys()].filter((id) => !others.has(id)));
		const erased = [...known].filter(([, where]) => where === 'erased').map(([id]) => id);
		if (erased.length > 0) this.#events.erased(erased);
		const candidates = (await this.#store.candidates()).filter((record) => record.audience === this.audience);
		await this.#settle(candidates, known);
		this.#known = true;
		if (this.#answered) this.#events.caughtUp();
		this.#watchAnswers();
		this.pump();
	}

	/** Ids that the club has with another text (a file that somebody changed): this text is not what is shared. */
	async #otherTexts(known: ReadonlyMap<EntryId, unknown>): Promise<Set<EntryId>> {
		const others = new Set<EntryId>();
		for (const { id, text } of await this.#store.unshared()) {
			const clubs = known.has(id) ? this.ledger.textOf(id) : null;
			if (clubs !== null && clubs !== text) others.add(id);
		}
		return others;
	}

	async #settle(candidates: readonly CandidateRecord[], known: ReadonlyMap<EntryId, unknown>): Promise<void> {
		const aside = (await this.#store.aside()).filter((record) => record.audience === this.audience);
		const has = [...candidates, ...aside].map((record) => record.id).filter((id) => known.has(id));
		const lacks = candidates.flatMap(({ id, text, audience, own }) => {
			const entry = readEntry(text);
			return known.has(id) || !entry ? [] : [{ ...unsharedRecord(entry, text, audience), own }];
		});
		if (has.length + lacks.length === 0) return;
		await this.#store.settleCandidates(has, lacks);
		this.#events.storeChanged();
	}

	async #hearAccepted(rows: readonly (readonly [EntryId, number])[], serverTime: number): Promise<void> {
		this.#laterMs = laterFirstMs;
		this.#events.serverTime(serverTime);
		const ids = rows.map(([id]) => id);
		await this.#share(ids);
		for (const [id, n] of rows) this.#events.row(n, id);
		this.#watchAnswers();
		this.pump();
	}

	async #share(ids: readonly EntryId[]): Promise<void> {
		const left = await this.#store.accept(ids);
		for (const id of ids) this.#awaiting.delete(id);
		this.#events.shared(left);
		if (left.length > 0) this.#events.storeChanged();
	}

	async #hearRefused(id: EntryId, reason: Parameters<DeviceStore['refuse']>[1]): Promise<void> {
		// Erased by the club, a person's right: this copy goes, too.
		if (reason === 'erased') {
			await this.#share([id]);
			this.#events.erased([id]);
		}
		const refused = await this.#store.refuse(id, reason);
		for (const one of new Set([id, ...refused])) {
			this.#awaiting.delete(one);
			for (const { client, clock } of this.ledger.positions(one)) {
				if (this.#ownLogs.has(client)) this.#mend({ client, fromClock: clock });
			}
		}
		this.#events.storeChanged();
		this.pump();
	}

	#sendFrom(client: number, clock: number): void {
		if (clock < this.ledger.clockOf(client))
			this.#connection?.sendUpdate(this.ledger.updateFrom(client, clock));
		this.#watchAnswers();
	}

	#sendLater(client: number, clock: number): void {
		this.#paused = true;
		this.#after('later', this.#laterMs, () => {
			this.#paused = false;
			this.#sendFrom(client, clock);
			this.pump();
		});
		this.#laterMs = Math.min(this.#laterMs * 2, laterLongestMs);
	}

	/** Writes the document again without these ends of logs, in a log of its own, and connects anew. */
	#mend(end: LogSlice): void {
		this.#damage.set(end.client, Math.min(end.fromClock, this.#damage.get(end.client) ?? Infinity));
		this.#paused = true;
		this.#after('mend', mendDelayMs, () => {
			void this.#mendNow().catch((error: unknown) => this.#events.problem(error));
		});
	}

	async #mendNow(): Promise<void> {
		if (this.#closed || this.#damage.size === 0) return;
		const ends = [...this.#damage].map(([client, fromClock]) => ({ client, fromClock }));
		this.#damage.clear();
		this.#connection?.destroy();
		this.#connection = undefined;
		this.#events.cutOff();
		const held = new Set((await this.#store.unshared()).map((record) => record.id));
		const candidates = ends.flatMap(({ client, fromClock }) =>
			this.ledger.entriesOf(client, fromClock).flatMap(({ entry, text }): CandidateRecord[] => {
				if (!entry || held.has(entry.id)) return [];
				return [{ id: entry.id, text, audience: this.audience, own: entry.by === this.#parts.member }];
			})
		);
		await this.#store.addCandidates(candidates);
		const old = this.ledger;
		old.onAddition = undefined;
		this.ledger = old.copyWithout(ends);
		await this.#cache.clear();
		old.doc.destroy();
		this.#cache = new DocumentCache(this.cacheName);
		await this.#cache.attach(this.ledger.doc);
		this.#listen();
		this.#events.replaced();
		if (this.#wanted) this.connect();
	}

	async #pumpAll(): Promise<void> {
		while (this.#pumpAgain && this.#ready) {
			this.#pumpAgain = false;
			const waitingBytes = [...this.#awaiting.values()].reduce((sum, bytes) => sum + bytes, 0);
			const most = {
				entries: limits.maxUnansweredEntries - this.#awaiting.size,
				bytes: limits.maxUnansweredBytes - waitingBytes
			};
			if (most.entries <= 0 || most.bytes <= 0) return;
			const { ledger } = this;
			await this.#rememberLog(ledger.clientId);
			const claimed = await this.#store.claim(this.audience, this.#awaiting, most);
			if (claimed.length === 0) continue;
			// While the store was asked the socket may have gone or the document been replaced: the next `known` or
			// mending brings these again, they are in the store.
			if (!this.#ready || ledger !== this.ledger) return;
			for (const record of claimed) this.#awaiting.set(record.id, record.bytes);
			ledger.add(claimed.map((record) => record.text));
			this.#events.storeChanged();
			this.#watchAnswers();
			this.#pumpAgain = true;
		}
	}

	/** Written down before its first use, so that a later page knows which logs are this device's. */
	async #rememberLog(client: number): Promise<void> {
		if (this.#ownLogs.has(client)) return;
		this.#ownLogs.add(client);
		await this.rememberLogs();
	}

	#watchAnswers(): void {
		if (this.#known && this.#answered && this.#awaiting.size === 0) {
			clearTimeout(this.#timers.get('answers'));
			return;
		}
		this.#after('answers', answerTimeoutMs, () => {
			if (!this.#connection?.isConnected) return;
			this.#connection.disconnect();
			this.#connection.connect();
		});
	}

	#afterClose(code: number | null, isFinal: boolean): void {
		this.#known = false;
		this.#answered = false;
		this.#awaiting.clear();
		this.#events.cutOff();
		if (code === reasons.newEdition.code) this.#events.moved(false);
		else if (isFinal) this.#events.finalClose(code!);
	}

	#after(name: string, ms: number, work: () => void): void {
		clearTimeout(this.#timers.get(name));
		this.#timers.set(name, setTimeout(work, ms));
	}
}
