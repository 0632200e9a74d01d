/**
 * The fold: the same set of entries and stamps gives the same club state, whatever the order of arrival, with or
 * without a saved state, on every device (SPEC.md). A late entry re-derives only the things it is about and those
 * that depend on them.
 */
import { Authority } from './authority.ts';
import { Corrections } from './corrections.ts';
import { Derivation, type DerivedState } from './derivation.ts';
import type { Entry, EntryId, Stamp } from './entry.ts';
import { Holdings, linePlacings, meetingPlacings, roomPlacings } from './holdings.ts';
import { isEnvelope, makeItem, readEntry, type Item } from './item.ts';
import { judge } from './judge.ts';
import { JudgingQueue } from './judgingQueue.ts';
import { kinds } from './kinds.ts';
import { rankTime } from './rank.ts';
import type { Ground } from './rights.ts';
import type { ClubState, EntryView } from './state.ts';

/** Raised whenever the fold may make another state of the same entries: saved states of other versions are dropped. */
export const foldVersion = 1;

export interface FoldInput {
	/** The entry as JSON text, or already parsed; a stamp may come alone, with the id in it. */
	readonly text?: string;
	readonly entry?: Entry;
	readonly stamp?: Stamp;
}

/** A fold's whole inside as plain data (structured-cloneable): what a device keeps to open fast. */
export interface SavedFold {
	readonly foldVersion: number;
	readonly timeZone: string;
	readonly items: readonly Omit<Item, 'kind'>[];
	readonly lateStamps: readonly Stamp[];
	readonly derived: DerivedState;
}

export class Fold {
	#timeZone = 'UTC';
	#items = new Map<EntryId, Item>();
	#lateStamps = new Map<EntryId, Stamp>();
	#byWriter = new Map<string, Set<Item>>();
	#authority = new Authority();
	#corrections = new Corrections(this.#items);
	#ground: Ground = this.#newGround();
	#derivation = new Derivation(this.#corrections, this.#authority);
	#highestTime = 0;
	#unreadable = 0;

	get state(): ClubState {
		return this.#derivation.state;
	}
	get size(): number {
		return this.#items.size;
	}
	/** Texts that are no entries at all: counted, so that a screen can say so. */
	get unreadable(): number {
		return this.#unreadable;
	}
	/** The highest time of any rank, ms since 1970: a device makes its ids later than this. */
	get highestTime(): number {
		return this.#highestTime;
	}
	ids(): Iterable<EntryId> {
		return this.#items.keys();
	}
	entry(id: EntryId): Entry | null {
		return this.#items.get(id)?.entry ?? null;
	}

	/** What the fold knows of an entry, or null for one it does not have. */
	view(id: EntryId): EntryView | null {
		const item = this.#items.get(id);
		if (!item) return null;
		const stamp = item.stamp;
		return {
			id,
			verdict: item.verdict,
			correctedBy: this.#corrections.live(item).map((one) => one.entry.id),
			n: stamp?.n ?? null,
			acceptedAt: stamp?.time ?? null,
			clockWrong: stamp !== null && item.entry.by !== 'club' && rankTime(item.own) < idTimeOf(item)
		};
	}

	/** Entries that correct, confirm, dispute or decide this one, in rank order. */
	speakingOf(id: EntryId): Entry[] {
		const item = this.#items.get(id);
		if (!item) return [];
		return [...this.#corrections.referrers(item)]
			.sort((a, b) => (a.rank < b.rank ? -1 : 1))
			.map((one) => one.entry);
	}

	/** Orders entries as the club's history does. */
	rankOf(id: EntryId): string {
		return this.#items.get(id)?.rank ?? '';
	}

	/** Takes entries and stamps in, in any order, any number of times. */
	add(inputs: Iterable<FoldInput>): void {
		const fresh: Item[] = [];
		for (const input of inputs) this.#take(input, fresh);
		if (fresh.length === 0) return;
		const zone = this.#zoneFrom(fresh);
		if (zone !== this.#timeZone) this.#rebuild(zone);
		else this.#settle(fresh);
	}

	/** Takes an entry out again: only for one that was never shared (undo). */
	remove(id: EntryId): void {
		if (!this.#items.delete(id)) return;
		this.#rebuild(this.#timeZone);
	}

	save(): SavedFold {
		return {
			foldVersion,
			timeZone: this.#timeZone,
			items: [...this.#items.values()].map(({ kind: _kind, ...item }) => item),
			lateStamps: [...this.#lateStamps.values()],
			derived: this.#derivation.save()
		};
	}

	/** A fold from a saved one; null when it was saved by another version of the fold. */
	static restore(saved: SavedFold): Fold | null {
		if (saved.foldVersion !== foldVersion) return null;
		const fold = new Fold();
		fold.#timeZone = saved.timeZone;
		for (const stamp of saved.lateStamps) fold.#lateStamps.set(stamp.id, stamp);
		const items = saved.items.map((item) => ({ ...item, kind: kinds.get(item.entry.kind) ?? null }));
		for (const item of items) fold.#register(item);
		for (const item of items) {
			fold.#corrections.link(item);
			fold.#authority.take(item);
			if (item.verdict.name === 'counts') fold.#place(item, true);
			fold.#derivation.list(item);
		}
		fold.#derivation.restore(saved.derived);
		return fold;
	}

	#take(input: FoldInput, fresh: Item[]): void {
		const entry = input.entry ?? (input.text ? readEntry(input.text) : null);
		if (!entry || !isEnvelope(entry)) {
			if (input.stamp) this.#takeStamp(input.stamp, fresh);
			else if (input.text !== '') this.#unreadable++;
			return;
		}
		const known = this.#items.get(entry.id);
		const stamp = input.stamp ?? known?.stamp ?? this.#lateStamps.get(entry.id) ?? null;
		if (known) {
			// One text per id is the server's promise; should it ever break, every device picks the same one.
			const other = JSON.stringify(entry) < JSON.stringify(known.entry) && !sameContent(entry, known.entry);
			if (!other) {
				if (input.stamp) this.#takeStamp(input.stamp, fresh);
				return;
			}
		}
		this.#lateStamps.delete(entry.id);
		this.#replace(known, makeItem(entry, stamp, this.#timeZone), fresh);
	}

	#takeStamp(stamp: Stamp, fresh: Item[]): void {
		const known = this.#items.get(stamp.id);
		if (!known) this.#lateStamps.set(stamp.id, stamp);
		else if (!known.stamp) this.#replace(known, makeItem(known.entry, stamp, this.#timeZone), fresh);
	}

	#replace(known: Item | undefined, item: Item, fresh: Item[]): void {
		if (known) this.#forget(known);
		const at = known ? fresh.indexOf(known) : -1;
		if (at >= 0) fresh[at] = item;
		else fresh.push(item);
		this.#register(item);
	}

	#register(item: Item): void {
		this.#items.set(item.entry.id, item);
		const written = this.#byWriter.get(item.entry.by);
		if (written) written.add(item);
		else this.#byWriter.set(item.entry.by, new Set([item]));
		const time = rankTime(item.own);
		if (time > this.#highestTime) this.#highestTime = time;
	}

	#forget(item: Item): void {
		this.#byWriter.get(item.entry.by)?.delete(item);
		this.#corrections.unlink(item);
		this.#place(item, false);
		this.#derivation.unlist(item);
	}

	#zoneFrom(fresh: readonly Item[]): string {
		for (const item of fresh) {
			if (item.entry.kind === 'club/opened' && item.problem === '' && item.entry.by === 'club') {
				const zone = (item.body as { timeZone: string }).timeZone;
				if (isTimeZone(zone)) return zone;
			}
		}
		return this.#timeZone;
	}

	#rebuild(timeZone: string): void {
		const items = [...this.#items.values()];
		this.#timeZone = timeZone;
		this.#items = new Map();
		this.#byWriter = new Map();
		this.#authority = new Authority();
		this.#corrections = new Corrections(this.#items);
		this.#ground = this.#newGround();
		this.#derivation = new Derivation(this.#corrections, this.#authority);
		this.#highestTime = 0;
		const fresh = items.map((item) => makeItem(item.entry, item.stamp, timeZone));
		for (const item of fresh) this.#register(item);
		this.#settle(fresh);
	}

	#newGround(): Ground {
		return {
			authority: this.#authority,
			holdings: new Holdings(roomPlacings),
			lines: new Holdings(linePlacings),
			meetings: new Holdings(meetingPlacings)
		};
	}

	#settle(fresh: readonly Item[]): void {
		const queue = new JudgingQueue();
		for (const item of fresh) this.#corrections.link(item);
		const moved = new Set<Item>();
		for (const item of fresh) {
			for (const member of this.#authority.take(item)) {
				for (const written of this.#byWriter.get(member) ?? []) queue.push(written);
			}
			const own = item.rank;
			for (const one of this.#corrections.rank(item)) if (one !== item || item.rank !== own) moved.add(one);
		}
		// A rank that moved takes its holdings with it.
		for (const item of moved) if (item.verdict.name === 'counts') this.#requeueAfter(item, false, queue);
		for (const item of fresh) this.#derivation.list(item);
		for (const item of moved) this.#derivation.relist(item);
		for (const item of [...fresh, ...moved]) {
			queue.push(item);
			for (const one of this.#corrections.referrers(item)) queue.push(one);
			this.#touch(item);
		}
		for (const item of moved) if (item.verdict.name === 'counts') this.#requeueAfter(item, true, queue);
		for (let item = queue.pop(); item; item = queue.pop()) this.#judge(item, queue);
		this.#derivation.run();
	}

	#judge(item: Item, queue: JudgingQueue): void {
		const before = item.verdict;
		const verdict = judge(item, this.#ground, this.#corrections);
		item.verdict = verdict;
		if (verdict.name === before.name && verdict.why === before.why) return;
		this.#touch(item);
		const counted = before.name === 'counts';
		const counts = verdict.name === 'counts';
		if (counted === counts) return;
		this.#requeueAfter(item, counts, queue);
		if (item.entry.kind === 'word/confirmed')
			for (const target of this.#corrections.targets(item)) queue.push(target);
	}

	#requeueAfter(item: Item, counts: boolean, queue: JudgingQueue): void {
		for (const thing of this.#place(item, counts)) {
			for (const later of this.#derivation.itemsOf(thing)) {
				if (later === item) continue;
				queue.push(later);
				for (const one of this.#corrections.referrers(later)) queue.push(one);
			}
		}
	}

	#place(item: Item, counts: boolean): string[] {
		const { holdings, lines, meetings } = this.#ground;
		return [...holdings.set(item, counts), ...lines.set(item, counts), ...meetings.set(item, counts)];
	}

	/** The things of an entry, and of those it speaks of or corrects, are derived anew. */
	#touch(item: Item): void {
		this.#derivation.touch(item);
		for (const target of this.#corrections.targets(item)) {
			this.#derivation.touch(target);
			for (const deeper of this.#corrections.targets(target)) this.#derivation.touch(deeper);
		}
	}
}

function idTimeOf(item: Item): number {
	return Number.parseInt(item.entry.id.slice(0, 8) + item.entry.id.slice(9, 13), 16);
}

function isTimeZone(zone: string): boolean {
	try {
		new Intl.DateTimeFormat('en', { timeZone: zone });
		return true;
	} catch {
		return false;
	}
}

function sameContent(a: Entry, b: Entry): boolean {
	return JSON.stringify(a) === JSON.stringify(b);
}
