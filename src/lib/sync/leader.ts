/**
 * What only the tab with the lock does: asks for the manifest, fetches volumes, moves to new documents and editions,
 * and keeps one link for each audience.
 *
 * A move is made only when the new volumes are here and checked. Before a copy is dropped, what it held and the new
 * volumes do not is written down as a candidate; the club is asked about it on the next connect.
 */
import type { Audience, EntryId, MemberId } from '#records/entry.ts';
import type { Manifest, ManifestVolume, VolumeRow } from '#protocol/messages.ts';
import { reasons } from '#protocol/reasons.ts';
import { AudienceLink } from './audienceLink.ts';
import { fetchManifest, fetchVolume, readVolume } from './clubFetch.ts';
import type { CandidateRecord } from './deviceDatabase.ts';
import type { DeviceStore } from './deviceStore.ts';
import type { LedgerAddition } from './ledgerDocument.ts';
import type { DeviceProblemCode } from './problems.ts';
import { readEntry } from './readEntry.ts';

const retryFirstMs = 500;
const retryLongestMs = 30_000;
const rememberRowDelayMs = 500;

export interface LeaderEvents {
	addition(audience: Audience, addition: LedgerAddition): void;
	update(audience: Audience, document: string, update: Uint8Array): void;
	/** Copies were dropped or rewritten: folds and other tabs start over. */
	reset(): void;
	/** New volumes or documents, nothing dropped. */
	moved(newVolumes: readonly string[]): void;
	storeChanged(): void;
	shared(ids: readonly EntryId[]): void;
	erased(ids: readonly EntryId[]): void;
	serverTime(ms: number): void;
	/** True once the club has said what it has and its record is here. */
	connected(connected: boolean): void;
	problem(code: DeviceProblemCode, present: boolean): void;
	needsSignIn(needed: boolean): void;
	failed(error: unknown): void;
}

interface HighestRow {
	readonly edition: string;
	readonly row: number;
	readonly id?: EntryId;
}

const finalProblems: readonly DeviceProblemCode[] = [
	'signed-out',
	'not-allowed',
	'app-too-old',
	'broken-rules'
];

export class Leader {
	readonly links = new Map<Audience, AudienceLink>();
	readonly #serverUrl: string;
	readonly #club: string;
	readonly #member: MemberId;
	readonly #store: DeviceStore;
	readonly #events: LeaderEvents;
	readonly #stop = new AbortController();
	#manifest: Manifest | undefined;
	#highest: HighestRow = { edition: '', row: 0 };
	#online = true;
	#catching = false;
	#working: Promise<void> = Promise.resolve();
	#catchAgain = false;
	#stale = new Set<Audience>();
	#retryMs = retryFirstMs;
	#retryTimer: ReturnType<typeof setTimeout> | undefined;
	#rowTimer: ReturnType<typeof setTimeout> | undefined;

	constructor(
		place: { readonly serverUrl: string; readonly club: string; readonly member: MemberId },
		store: DeviceStore,
		events: LeaderEvents
	) {
		this.#serverUrl = place.serverUrl;
		this.#club = place.club;
		this.#member = place.member;
		this.#store = store;
		this.#events = events;
	}

	/** Loads what is kept here; needs no network. */
	async load(): Promise<void> {
		this.#manifest = await this.#store.meta<Manifest>('manifest');
		this.#highest = (await this.#store.meta<HighestRow>('highestRow')) ?? this.#highest;
		if (this.#manifest) await this.#openLinks(this.#manifest);
	}

	setOnline(online: boolean): void {
		this.#online = online;
		if (!online) for (const link of this.links.values()) link.disconnect();
		else this.catchUp();
	}

	/** Asks for the manifest, moves if need be, and connects. Also after signing in again. */
	catchUp(): void {
		if (this.#stop.signal.aborted || !this.#online) return;
		clearTimeout(this.#retryTimer);
		this.#catchAgain = true;
		if (this.#catching) return;
		this.#catching = true;
		this.#working = this.#catchUpAll()
			.catch((error: unknown) => {
				this.#events.failed(error);
				this.#retryLater();
			})
			.finally(() => {
				this.#catching = false;
			});
	}

	pump(audience: Audience): void {
		this.links.get(audience)?.pump();
	}

	hasAudience(audience: Audience): boolean {
		return !this.#manifest || this.#manifest.audiences.some((one) => one.audience === audience);
	}

	/** The browser threw the store away under the app: what is known here is written again, volumes are fetched again. */
	async putBack(): Promise<void> {
		if (this.#manifest) await this.#store.setMeta('manifest', this.#manifest);
		if (this.#highest.row > 0) await this.#store.setMeta('highestRow', this.#highest);
		for (const link of this.links.values()) await link.rememberLogs();
		this.catchUp();
	}

	async close(): Promise<void> {
		this.#stop.abort();
		// What is being opened would otherwise be opened after it was closed.
		await this.#working;
		clearTimeout(this.#retryTimer);
		clearTimeout(this.#rowTimer);
		await Promise.all([...this.links.values()].map((link) => link.close()));
		this.links.clear();
	}

	async #catchUpAll(): Promise<void> {
		while (this.#catchAgain && !this.#stop.signal.aborted) {
			this.#catchAgain = false;
			const answer = await fetchManifest(this.#serverUrl, this.#club, this.#member, this.#stop.signal);
			if (this.#stop.signal.aborted) return;
			if ('failure' in answer) {
				if (answer.failure === 'unreachable') this.#retryLater();
				else this.#final(answer.failure);
				return;
			}
			for (const code of finalProblems) this.#events.problem(code, false);
			this.#events.needsSignIn(false);
			const moved = await this.#moveTo(answer.manifest);
			if (this.#stop.signal.aborted) return;
			if (!moved) {
				this.#retryLater();
				return;
			}
			if (this.#online) for (const link of this.links.values()) link.connect();
		}
	}

	#final(code: DeviceProblemCode): void {
		this.#events.problem(code, true);
		if (code === 'signed-out') this.#events.needsSignIn(true);
	}

	#retryLater(): void {
		clearTimeout(this.#retryTimer);
		if (this.#stop.signal.aborted) return;
		this.#retryTimer = setTimeout(() => this.catchUp(), this.#retryMs);
		this.#retryMs = Math.min(this.#retryMs * 2, retryLongestMs);
	}

	/** @returns false when something could not be fetched; nothing has changed then */
	async #moveTo(manifest: Manifest): Promise<boolean> {
		const before = this.#manifest;
		const stale = new Set(this.#stale);
		const volumes = manifest.audiences.flatMap(({ audience, volumes: list }) =>
			list.map((volume) => ({ audience: audience as Audience, volume }))
		);
		const held = new Set(await this.#store.volumeDigests());
		const hasAll = volumes.every(({ volume }) => held.has(volume.digest));
		const isSame = before !== undefined && sameLedgers(before, manifest) && this.links.size > 0;
		if (isSame && hasAll && stale.size === 0) return true;
		for (const { audience, volume } of volumes) {
			if (!held.has(volume.digest) && !(await this.#fetchVolume(audience, volume))) return false;
		}
		this.#events.problem('volume-damaged', false);
		const keep = new Set(volumes.map(({ volume }) => volume.digest));
		const dropped = [...held].filter((digest) => !keep.has(digest));
		const fresh = [...keep].filter((digest) => !held.has(digest));
		const newEdition = before !== undefined && before.edition !== manifest.edition;
		const open = new Map(manifest.audiences.map((one) => [one.audience as Audience, one.document]));
		const leaving = [...this.links.values()].filter(
			(link) => newEdition || stale.has(link.audience) || open.get(link.audience) !== link.address.document
		);
		const candidates = await this.#candidates(manifest, leaving, dropped, fresh);
		await this.#store.moveTo(manifest, keep, candidates);
		this.#manifest = manifest;
		for (const audience of stale) this.#stale.delete(audience);
		if (newEdition) await this.#forgetRow();
		for (const link of leaving) {
			await link.close({ dropCache: true });
			this.links.delete(link.audience);
		}
		await this.#openLinks(manifest);
		if (newEdition || dropped.length > 0 || stale.size > 0) this.#events.reset();
		else this.#events.moved(fresh);
		return true;
	}

	async #fetchVolume(audience: Audience, volume: ManifestVolume): Promise<boolean> {
		const bytes = await fetchVolume(this.#serverUrl, this.#club, volume, this.#stop.signal);
		if (bytes === 'unreachable') return false;
		if (bytes === 'damaged') {
			this.#events.problem('volume-damaged', true);
			return false;
		}
		await this.#store.addVolume({ digest: volume.digest, audience, bytes });
		return true;
	}

	/** What the copies about to be dropped hold and the new volumes do not. */
	async #candidates(
		manifest: Manifest,
		leaving: readonly AudienceLink[],
		dropped: readonly string[],
		fresh: readonly string[]
	): Promise<CandidateRecord[]> {
		const may = new Set(manifest.audiences.map((one) => one.audience));
		const found = leaving.filter((link) => may.has(link.audience)).flatMap((link) => link.candidates());
		for (const digest of dropped) {
			const record = await this.#store.volume(digest);
			if (!record || !may.has(record.audience)) continue;
			for (const row of await this.#rows(digest)) {
				const entry = readEntry(row.text);
				if (!entry) continue;
				found.push({ id: row.id, text: row.text, audience: record.audience, own: entry.by === this.#member });
			}
		}
		if (found.length === 0) return [];
		// An erased row keeps its id, so what was erased is not brought back.
		const there = new Set<EntryId>();
		for (const digest of fresh) for (const row of await this.#rows(digest)) there.add(row.id);
		return found.filter((record) => !there.has(record.id));
	}

	async #rows(digest: string): Promise<VolumeRow[]> {
		const record = await this.#store.volume(digest);
		return record ? readVolume(record.bytes) : [];
	}

	async #openLinks(manifest: Manifest): Promise<void> {
		for (const { audience, document } of manifest.audiences) {
			if (this.links.has(audience as Audience) || this.#stop.signal.aborted) continue;
			const link = this.#newLink(audience as Audience, document, manifest.edition);
			this.links.set(audience as Audience, link);
			await link.load();
			// What the cache held was added before anyone listened.
			this.#events.addition(link.audience, link.ledger.everything());
			this.#events.update(link.audience, document, link.ledger.wholeUpdate());
		}
	}

	#newLink(audience: Audience, document: string, edition: string): AudienceLink {
		return new AudienceLink({
			audience,
			address: {
				socketUrl: this.#serverUrl.replace(/^http/, 'ws'),
				club: this.#club,
				member: this.#member,
				document,
				edition
			},
			member: this.#member,
			store: this.#store,
			highestRow: () => this.#highest,
			events: {
				addition: (addition) => {
					for (const stamp of addition.stamps) this.#seeRow(stamp.n, stamp.id);
					this.#events.addition(audience, addition);
				},
				update: (update) => this.#events.update(audience, document, update),
				replaced: () => this.#events.reset(),
				storeChanged: () => this.#events.storeChanged(),
				shared: (ids) => this.#events.shared(ids),
				erased: (ids) => this.#events.erased(ids),
				serverTime: (ms) => this.#events.serverTime(ms),
				row: (row, id) => this.#seeRow(row, id),
				cutOff: () => {
					if (audience === 'club') this.#events.connected(false);
				},
				caughtUp: () => {
					this.#retryMs = retryFirstMs;
					if (audience === 'club') this.#events.connected(true);
				},
				finalClose: (code) => this.#finalClose(audience, code),
				moved: (copyIsStale) => {
					if (copyIsStale) this.#stale.add(audience);
					this.links.get(audience)?.disconnect();
					// Not at once: a server that goes on closing must not be asked without a pause.
					this.#retryLater();
				},
				problem: (error) => this.#events.failed(error)
			}
		});
	}

	#finalClose(audience: Audience, code: number): void {
		// A private part that may no longer be opened: the manifest says what there is.
		if (code === reasons.notAllowed.code && audience !== 'club') this.#retryLater();
		else if (code === reasons.signedOut.code) this.#final('signed-out');
		else if (code === reasons.notAllowed.code) this.#final('not-allowed');
		else if (code === reasons.appTooOld.code) this.#final('app-too-old');
		else this.#final('broken-rules');
	}

	#seeRow(row: number, id: EntryId): void {
		const edition = this.#manifest?.edition ?? '';
		if (this.#highest.edition === edition && row <= this.#highest.row) return;
		this.#highest = { edition, row, id };
		this.#rowTimer ??= setTimeout(() => {
			this.#rowTimer = undefined;
			void this.#store
				.setMeta('highestRow', this.#highest)
				.catch((error: unknown) => this.#events.failed(error));
		}, rememberRowDelayMs);
	}

	async #forgetRow(): Promise<void> {
		this.#highest = { edition: this.#manifest?.edition ?? '', row: 0 };
		await this.#store.setMeta('highestRow', this.#highest);
	}
}

function sameLedgers(one: Manifest, other: Manifest): boolean {
	return one.edition === other.edition && JSON.stringify(one.audiences) === JSON.stringify(other.audiences);
}
