/**
 * A member's ledger on this device, as one tab sees it: what the club has as far as it is here, what is not shared
 * yet, and the ways to write, take back, save and wipe. Folds hang on `events`; who is online and who holds the
 * socket is settled in here.
 * This file is long because it is where store, tabs, leader and status meet, and each is a line or two.
 */
import type { Audience, DeviceId, Draft, Entry, EntryId, MemberId } from '#records/entry.ts';
import { limits } from '#protocol/limits.ts';
import type { Manifest } from '#protocol/messages.ts';
import { bringAside } from './bringAside.ts';
import { DeviceStore, type UndoResult } from './deviceStore.ts';
import { Leader } from './leader.ts';
import type { LedgerAddition, LedgerItem } from './ledgerDocument.ts';
import { EntryIdMaker, idTimeMs } from './newEntryId.ts';
import { DeviceError, type DeviceProblemCode } from './problems.ts';
import { readEntry } from './readEntry.ts';
import { ReplicaDocuments } from './replicaDocuments.ts';
import { StatusBoard, type SyncStatus, type UnsharedNote } from './syncStatus.ts';
import { storageEstimate } from './storageEstimate.ts';
import { Tabs } from './tabs.ts';
import type { TabMessage } from './tabMessage.ts';
import { readUnsharedFile, writeUnsharedFile } from './unsharedFile.ts';
import { volumeAddition } from './volumeAddition.ts';
import { wipeDevice } from './wipeDevice.ts';
import { writeEntries } from './writeEntries.ts';

const storeChangedDelayMs = 60;

export interface DeviceLedgerEvents {
	/** More entries or stamps; an entry may come several times. */
	added(audience: Audience, addition: LedgerAddition): void;
	/** Taken back or erased. */
	removed(ids: readonly EntryId[]): void;
	/** Copies were dropped: read `volumes`, `documents` and `unshared` again. */
	reset(): void;
	status(status: SyncStatus): void;
	/** Another tab has signed out; this one has closed its store. */
	wiped(): void;
}

export interface DeviceLedgerPlace {
	readonly club: string;
	readonly member: MemberId;
	readonly device: DeviceId;
	/** `http(s)://host` of the club's server. */
	readonly serverUrl: string;
	/** A mark outside the database says that it has been here: if it is new, the browser threw it away. */
	readonly hadStore: boolean;
	versionOf(kind: string): number;
}

export interface VolumeContents extends LedgerAddition {
	readonly audience: Audience;
	readonly digest: string;
}

export class DeviceLedger {
	readonly ids = new EntryIdMaker();
	readonly store: DeviceStore;
	readonly #place: DeviceLedgerPlace;
	readonly #events: DeviceLedgerEvents;
	readonly #board: StatusBoard;
	readonly #replicas: ReplicaDocuments;
	#tabs: Tabs<TabMessage> | undefined;
	#leader: Leader | undefined;
	#leaderReady: Promise<void> = Promise.resolve();
	#storeTimer: ReturnType<typeof setTimeout> | undefined;
	#releaseOpen: (() => void) | undefined;
	#storeVersion = 0;
	#online = true;
	#closed = false;

	constructor(place: DeviceLedgerPlace, events: DeviceLedgerEvents) {
		this.#place = place;
		this.#events = events;
		this.#board = new StatusBoard((status) => events.status(status));
		this.store = new DeviceStore(place.club, place.member, {
			putBack: () => {
				this.#board.problem('storage-put-back', true);
				this.#storeChanged();
				this.#pumpAll();
				void this.#leader?.putBack().catch((error: unknown) => this.#failed(error));
			},
			madeRoom: () => {}
		});
		this.#replicas = new ReplicaDocuments(this.store.name, (audience, addition) =>
			this.#added(audience, addition)
		);
	}

	get status(): SyncStatus {
		return this.#board.current;
	}

	/** Works with no network. Resolves when what is here can be read. */
	async open(online: boolean): Promise<void> {
		this.#online = online;
		this.#board.set({ online });
		this.#releaseOpen = await holdOpenLock(this.store.name);
		await this.store.open();
		const evicted = this.#place.hadStore && this.store.created;
		this.#board.problem('storage-evicted', evicted);
		this.#board.set({
			storage: { ...(await storageEstimate()), evicted },
			lastSharedAt: (await this.store.meta<number>('lastSharedAt')) ?? null,
			lastCaughtUpAt: (await this.store.meta<number>('lastCaughtUpAt')) ?? null
		});
		await this.#readStore();
		this.#tabs = new Tabs<TabMessage>(this.store.name, {
			hear: (message) => void this.#hear(message),
			lead: () => {
				this.#leaderReady = this.#lead().catch((error: unknown) => this.#failed(error));
			}
		});
		if (await this.#tabs.leads) await this.#leaderReady;
		else await this.#follow();
	}

	/** Closed volumes, one after the other, but for those a saved fold has already. */
	async *volumes(except: ReadonlySet<string>): AsyncGenerator<VolumeContents> {
		const manifest = await this.store.meta<Manifest>('manifest');
		for (const { audience, volumes } of manifest?.audiences ?? []) {
			for (const { digest } of volumes) {
				if (except.has(digest)) continue;
				const record = await this.store.volume(digest);
				if (record) yield { audience: audience as Audience, digest, ...(await volumeAddition(record.bytes)) };
			}
		}
	}

	async manifest(): Promise<Manifest | undefined> {
		return this.store.meta<Manifest>('manifest');
	}

	/** Open documents as far as they are here. */
	documents(): { audience: Audience; addition: LedgerAddition }[] {
		const found = this.#leader
			? [...this.#leader.links.values()].map((link) => ({ audience: link.audience, ledger: link.ledger }))
			: this.#replicas.all();
		return found.map(({ audience, ledger }) => ({ audience, addition: ledger.everything() }));
	}

	/** What is only on this device. An entry whose id the club has with another text is not part of any state. */
	async unshared(): Promise<{ audience: Audience; item: LedgerItem }[]> {
		return (await this.store.unshared())
			.filter((record) => record.reason !== 'other-text')
			.map(({ audience, text }) => ({ audience, item: { text, entry: readEntry(text) } }));
	}

	/** Resolves when the entries are safe on this device. @throws DeviceError */
	async write(drafts: readonly Draft[], audience: Audience): Promise<Entry[]> {
		const written = writeEntries(
			drafts,
			audience,
			{ ...this.#place, ids: this.ids, versionOf: (kind) => this.#place.versionOf(kind) },
			Date.now()
		);
		await this.#keep(() => this.store.add(written.map((one) => one.record)));
		this.#wrote(written.map(({ entry, record }) => ({ audience, item: { text: record.text, entry } })));
		return written.map((one) => one.entry);
	}

	async undo(id: EntryId): Promise<UndoResult> {
		const result = await this.#keep(() => this.store.undo(id));
		if (typeof result === 'string') return result;
		this.#events.removed(result);
		this.#tabs?.tell({ type: 'removed', ids: result });
		this.#storeChanged();
		return result;
	}

	async exportUnshared(): Promise<string> {
		const records = [...(await this.store.unshared()), ...(await this.store.aside())];
		return writeUnsharedFile(this.#place.club, this.#place.member, records, new Date());
	}

	/** Union with what is here, never doubles. */
	async importFile(content: string): Promise<{ added: number; aside: number; unreadable: number }> {
		const file = readUnsharedFile(content, this.#place.club, this.#place.member);
		const here = new Set((await this.store.unshared()).map((record) => record.id));
		const fresh = file.own.filter((record) => !here.has(record.id) && !this.#has(record.audience, record.id));
		await this.#keep(() => this.store.add(fresh));
		await this.#keep(() => this.store.addAside(file.others));
		this.#wrote(fresh.map(({ audience, text }) => ({ audience, item: { text, entry: readEntry(text) } })));
		this.#storeChanged();
		return { added: fresh.length, aside: file.others.length, unreadable: file.unreadable };
	}

	/** On an officer's device: gives the club back what it has lost. @throws DeviceError */
	async bringAside(): Promise<{ brought: number; left: number }> {
		const aside = await this.store.aside();
		const there = await bringAside(this.#place.serverUrl, this.#place.club, aside);
		await this.#keep(() => this.store.settleCandidates(there, []));
		this.#storeChanged();
		return { brought: there.length, left: aside.length - there.length };
	}

	/** Sign-out: all tabs close, then everything of this member's club is deleted and looked for. */
	async wipe(evenUnshared: boolean): Promise<{ gone: boolean; unshared: number }> {
		const unshared = (await this.store.unshared().catch(() => [])).length;
		if (unshared > 0 && !evenUnshared) return { gone: false, unshared };
		this.#tabs?.tell({ type: 'wipe' });
		await this.close();
		return { gone: await wipeDevice(this.store.name), unshared };
	}

	setOnline(online: boolean): void {
		if (online === this.#online) return;
		this.#online = online;
		this.#board.set({ online });
		this.#leader?.setOnline(online);
	}

	/** After signing in again, or when a person asks for it. */
	retry(): void {
		if (this.#leader) this.#leader.catchUp();
		else this.#tabs?.tell({ type: 'retry' });
	}

	/** A person has read it. */
	dismiss(code: DeviceProblemCode): void {
		this.#board.problem(code, false);
	}

	async close(): Promise<void> {
		if (this.#closed) return;
		this.#closed = true;
		clearTimeout(this.#storeTimer);
		await this.#leaderReady;
		await this.#leader?.close();
		this.#replicas.close();
		this.#tabs?.close();
		await this.store.close();
		this.#releaseOpen?.();
	}

	async #lead(): Promise<void> {
		if (this.#closed) return;
		const leader = new Leader(this.#place, this.store, {
			addition: (audience, addition) => this.#added(audience, addition),
			update: (audience, document, update) =>
				this.#tabs?.tell({ type: 'update', audience, document, update }),
			reset: () => {
				this.#tabs?.tell({ type: 'moved' });
				this.#events.reset();
			},
			moved: (newVolumes) => {
				this.#tabs?.tell({ type: 'moved' });
				void this.#addVolumes(newVolumes).catch((error: unknown) => this.#failed(error));
			},
			storeChanged: () => this.#storeChanged(),
			shared: (ids) => this.#shared(ids),
			erased: (ids) => {
				this.#tabs?.tell({ type: 'removed', ids });
				this.#events.removed(ids);
			},
			serverTime: (ms) => {
				const serverTimeOffset = ms - Date.now();
				this.#setShared({ serverTimeOffset });
				this.#problem('clock-wrong', Math.abs(serverTimeOffset) > limits.clockAheadMs);
			},
			connected: (connected) => {
				this.#setShared({ connected, ...(connected ? { lastCaughtUpAt: Date.now() } : {}) });
				if (!connected) return;
				void this.store.setMeta('lastCaughtUpAt', Date.now()).catch((error: unknown) => this.#failed(error));
			},
			problem: (code, present) => this.#problem(code, present),
			needsSignIn: (appNeedsSignIn) => this.#setShared({ appNeedsSignIn }),
			failed: (error) => this.#failed(error)
		});
		await leader.load();
		if (this.#closed) return leader.close();
		this.#leader = leader;
		this.#replicas.close();
		this.#board.set({ leader: true });
		for (const { audience, ledger } of [...leader.links.values()]) this.#added(audience, ledger.everything());
		this.#readStoreSoon();
		leader.setOnline(this.#online);
	}

	async #follow(): Promise<void> {
		const manifest = await this.store.meta<Manifest>('manifest');
		await this.#replicas.load(manifest);
		this.#tabs?.tell({ type: 'hello' });
	}

	async #hear(message: TabMessage): Promise<void> {
		if (this.#closed) return;
		switch (message.type) {
			case 'hello':
				if (!this.#leader) return;
				for (const link of this.#leader.links.values()) {
					const { audience, address, ledger } = link;
					this.#tabs?.tell({
						type: 'update',
						audience,
						document: address.document,
						update: ledger.wholeUpdate()
					});
				}
				this.#tabs?.tell({ type: 'status', status: this.#sharedStatus() });
				for (const { code } of this.status.problems)
					this.#tabs?.tell({ type: 'problem', code, present: true });
				return;
			case 'update':
				if (!this.#leader) this.#replicas.apply(message.audience, message.document, message.update);
				return;
			case 'moved':
				if (this.#leader) return;
				this.#replicas.close();
				await this.#follow().catch((error: unknown) => this.#failed(error));
				return this.#events.reset();
			case 'wrote':
				this.#note(message.entries);
				for (const { audience, text } of message.entries) {
					this.#added(audience, { items: [{ text, entry: readEntry(text) }], stamps: [] });
				}
				this.#readStoreSoon();
				return this.#pumpAll();
			case 'removed':
				this.#readStoreSoon();
				return this.#events.removed(message.ids);
			case 'store-changed':
				return this.#readStoreSoon();
			case 'status':
				return this.#board.set(message.status);
			case 'problem':
				return this.#board.problem(message.code, message.present);
			case 'retry':
				return this.#leader?.catchUp();
			case 'wipe':
				await this.close();
				return this.#events.wiped();
		}
	}

	#added(audience: Audience, addition: LedgerAddition): void {
		const stamped = new Map(addition.stamps.map((stamp) => [stamp.id, stamp.time]));
		for (const { entry } of addition.items) {
			const time = entry && idTimeMs(entry.id);
			if (entry && time) this.ids.see(Math.min(time, stamped.get(entry.id) ?? Infinity));
		}
		this.#events.added(audience, addition);
	}

	async #addVolumes(digests: readonly string[]): Promise<void> {
		for (const digest of digests) {
			const record = await this.store.volume(digest);
			if (record) this.#added(record.audience, await volumeAddition(record.bytes));
		}
	}

	#wrote(entries: readonly { audience: Audience; item: LedgerItem }[]): void {
		this.#note(entries.map(({ audience, item }) => ({ audience, text: item.text })));
		for (const { audience, item } of entries) this.#added(audience, { items: [item], stamps: [] });
		this.#tabs?.tell({
			type: 'wrote',
			entries: entries.map(({ audience, item }) => ({ audience, text: item.text }))
		});
		this.#readStoreSoon();
		this.#pumpAll();
	}

	/** Says "only on this device" before anybody sees the entry: a missing note would read as shared. */
	#note(entries: readonly { audience: Audience; text: string }[]): void {
		this.#storeVersion++;
		const here = new Set(this.status.unshared.map((note) => note.id));
		const notes = entries.flatMap(({ audience, text }): UnsharedNote[] => {
			const entry = readEntry(text);
			if (!entry || here.has(entry.id)) return [];
			return [{ id: entry.id, audience, state: 'device', sending: false }];
		});
		if (notes.length > 0) this.#board.set({ unshared: [...this.status.unshared, ...notes] });
	}

	#shared(ids: readonly EntryId[]): void {
		if (ids.length === 0) return;
		const now = Date.now();
		this.#setShared({ lastSharedAt: now });
		void this.store.setMeta('lastSharedAt', now).catch((error: unknown) => this.#failed(error));
	}

	#has(audience: Audience, id: EntryId): boolean {
		return this.#leader?.links.get(audience)?.ledger.has(id) ?? this.#replicas.has(audience, id);
	}

	#pumpAll(): void {
		for (const link of this.#leader?.links.values() ?? []) link.pump();
	}

	/** For all tabs: only the leader knows these. */
	#setShared(change: Partial<SyncStatus>): void {
		this.#board.set(change);
		this.#tabs?.tell({ type: 'status', status: change });
	}

	#sharedStatus(): Partial<SyncStatus> {
		const { connected, lastSharedAt, lastCaughtUpAt, appNeedsSignIn, serverTimeOffset } = this.status;
		return { connected, lastSharedAt, lastCaughtUpAt, appNeedsSignIn, serverTimeOffset };
	}

	#problem(code: DeviceProblemCode, present: boolean): void {
		this.#board.problem(code, present);
		this.#tabs?.tell({ type: 'problem', code, present });
	}

	#storeChanged(): void {
		this.#tabs?.tell({ type: 'store-changed' });
		this.#readStoreSoon();
	}

	/** Together, for a burst of changes. */
	#readStoreSoon(): void {
		if (this.#closed) return;
		this.#storeTimer ??= setTimeout(() => {
			this.#storeTimer = undefined;
			if (!this.#closed) void this.#readStore().catch((error: unknown) => this.#failed(error));
		}, storeChangedDelayMs);
	}

	async #readStore(): Promise<void> {
		const version = this.#storeVersion;
		const records = await this.store.unshared();
		const aside = (await this.store.aside()).length;
		// Something was written while this was read, and is noted already.
		if (version !== this.#storeVersion) return this.#readStoreSoon();
		this.#board.set({
			aside,
			unshared: records.map(({ id, audience, state, reason }) => ({
				id,
				audience,
				state: state === 'refused' ? 'refused' : 'device',
				sending: state === 'sending',
				...(reason === undefined ? {} : { reason })
			}))
		});
		this.#board.problem('aside', aside > 0);
		const leader = this.#leader;
		if (leader) {
			this.#problem(
				'no-audience',
				records.some((record) => !leader.hasAudience(record.audience))
			);
		}
	}

	/** A write that fails is shown as a problem until one succeeds, and thrown to who asked for it. */
	async #keep<Value>(work: () => Promise<Value>): Promise<Value> {
		try {
			const value = await work();
			this.#board.problem('storage-full', false);
			this.#board.problem('storage-failed', false);
			return value;
		} catch (error) {
			this.#failed(error);
			throw error;
		}
	}

	#failed(error: unknown): void {
		if (this.#closed) return;
		const code = error instanceof DeviceError ? error.code : 'storage-failed';
		console.error('device ledger', code, error);
		this.#board.problem(code, true);
	}
}

/** Held by every tab that has the store open, so that a sign-out can wait until all have closed it. */
async function holdOpenLock(name: string): Promise<() => void> {
	if (!navigator.locks) return () => {};
	return new Promise((opened) => {
		void navigator.locks.request(
			`${name}:open`,
			{ mode: 'shared' },
			() => new Promise<void>((release) => opened(release))
		);
	});
}
