/**
 * The fold: the same set of entries and stamps gives the same club state, whatever the order of arrival, with or
 * without a saved state, on every device (SPEC.md). A late entry re-derives only the things it is about and those
 * that depend on them.
 */
import { Authority } from './authority.ts';
import { Corrections } from './corrections.ts';
import { Derivation } from './derivation.ts';
import type { Entry, EntryId, Stamp } from './entry.ts';
import { Holdings, linePlacings, meetingPlacings, roomPlacings } from './holdings.ts';
import { idTime, ownRank } from './rank.ts';
import { makeItem, restoreItem, saveItem, type Item } from './item.ts';
import { judge } from './judge.ts';
import { JudgingQueue } from './judgingQueue.ts';
import { isTimeZone, readAll, zoneIn, type FoldInput, type ReadInput } from './readInputs.ts';
import type { Ground } from './rights.ts';
import type { ClubState, EntryView } from './state.ts';

/** Raised whenever the fold may make another state of the same entries: saved states of other versions are dropped. */
export const foldVersion = 3;

export type { FoldInput };

/** What a device keeps to open fast, as plain data: entries that need no checking and judging any more. */
export interface SavedFold {
	readonly foldVersion: number;
	readonly timeZone: string;
	readonly items: readonly string[];
	readonly lateStamps: readonly Stamp[];
}

export class Fold {
	#timeZone = 'UTC';
	#items = new Map<EntryId, Item>();
	#lateStamps = new Map<EntryId, Stamp>();
	#byWriter = new Map<string, Set<Item>>();
	/** Entries that open the club: the first of them gives the time zone. */
	#openings = new Set<Item>();
	#authority = new Authority();
	#corrections = new Corrections(this.#items);
	#ground: Ground = this.#newGround();
	#derivation = new Derivation(this.#corrections, this.#authority);
	#highestTime: number | null = 0;
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
	/** The highest time of any rank, ms since 1970: a device makes its ids later than this (SPEC R11). */
	get highestTime(): number {
		if (this.#highestTime === null) {
			this.#highestTime = 0;
			for (const item of this.#items.values()) this.#noteTime(item);
		}
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
			clockWrong: stamp !== null && item.entry.by !== 'club' && stamp.time < (idTime(id) ?? 0)
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
		const news: News = { fresh: [], stamped: new Set(), removed: [], contradicted: false };
		const read = readAll(inputs);
		// The first entries of a club bring its time zone: known beforehand, nothing is read twice.
		if (this.#items.size === 0) this.#timeZone = zoneIn(read) ?? this.#timeZone;
		for (const input of read) this.#take(input, news);
		if (news.fresh.length === 0 && news.stamped.size === 0) return;
		const zone = this.#zone();
		if (zone !== this.#timeZone || news.contradicted) this.#rebuild(zone);
		else this.#settle(news);
	}

	/** Takes an entry out again: only for one that was never shared (undo). */
	remove(id: EntryId): void {
		const item = this.#items.get(id);
		if (!item) return;
		this.#items.delete(id);
		this.#byWriter.get(item.entry.by)?.delete(item);
		this.#openings.delete(item);
		this.#highestTime = null;
		// The server's own entries and circles reach everywhere; nobody undoes those by hand.
		if (item.entry.by === 'club' || item.inCircle) this.#rebuild(this.#zone());
		else this.#settle({ fresh: [], stamped: new Set(), removed: [item], contradicted: false });
	}

	save(): SavedFold {
		return {
			foldVersion,
			timeZone: this.#timeZone,
			items: [...this.#items.values()].map(saveItem),
			lateStamps: [...this.#lateStamps.values()]
		};
	}

	/** A fold from a saved one; null when it was saved by another version of the fold. */
	static restore(saved: SavedFold): Fold | null {
		if (saved.foldVersion !== foldVersion) return null;
		const fold = new Fold();
		fold.#timeZone = saved.timeZone;
		for (const stamp of saved.lateStamps) fold.#lateStamps.set(stamp.id, stamp);
		const items = saved.items.map((text) => restoreItem(text, saved.timeZone));
		for (const item of items) fold.#register(item);
		for (const item of items) {
			fold.#corrections.link(item);
			fold.#authority.take(item);
			if (item.verdict.name === 'counts') fold.#place(item, true);
			fold.#derivation.list(item);
			fold.#derivation.touch(item);
		}
		fold.#derivation.run();
		return fold;
	}

	#take({ entry, stamp, isUnreadable }: ReadInput, news: News): void {
		if (!entry) {
			if (stamp) this.#takeStamp(stamp, news);
			else if (isUnreadable) this.#unreadable++;
			return;
		}
		const known = this.#items.get(entry.id);
		if (known) this.#takeAgain(known, entry, news);
		else {
			const item = makeItem(entry, stamp ?? this.#lateStamps.get(entry.id) ?? null, this.#timeZone);
			this.#lateStamps.delete(entry.id);
			news.fresh.push(item);
			this.#register(item);
		}
		if (known && stamp) this.#takeStamp(stamp, news);
	}

	/** One text per id is the server's promise; should it ever break, every device picks the same one. */
	#takeAgain(known: Item, entry: Entry, news: News): void {
		const text = JSON.stringify(known.entry);
		if (known.entry === entry || JSON.stringify(entry) === text) return;
		const other = makeItem(entry, known.stamp, this.#timeZone);
		if (JSON.stringify(other.entry) >= text) return;
		this.#items.set(entry.id, other);
		news.contradicted = true;
		news.fresh.push(other);
	}

	#takeStamp(stamp: Stamp, news: News): void {
		const known = this.#items.get(stamp.id);
		if (!known) this.#lateStamps.set(stamp.id, stamp);
		else if (!known.stamp) {
			known.stamp = stamp;
			known.time = Math.min(known.time, stamp.time);
			known.own = ownRank(known.time, known.entry.id);
			this.#highestTime = null;
			news.stamped.add(known);
		}
	}

	#register(item: Item): void {
		this.#items.set(item.entry.id, item);
		const written = this.#byWriter.get(item.entry.by);
		if (written) written.add(item);
		else this.#byWriter.set(item.entry.by, new Set([item]));
		if (item.entry.kind === 'club/opened' && item.entry.by === 'club' && item.problem === '') {
			this.#openings.add(item);
		}
		this.#noteTime(item);
	}

	#noteTime(item: Item): void {
		const { time } = item;
		if (this.#highestTime !== null && time > this.#highestTime) this.#highestTime = time;
	}

	#zone(): string {
		let first: Item | null = null;
		for (const item of this.#openings) {
			if (isTimeZone((item.body as { timeZone: string }).timeZone) && (!first || item.own < first.own)) {
				first = item;
			}
		}
		return first ? (first.body as { timeZone: string }).timeZone : 'UTC';
	}

	#rebuild(timeZone: string): void {
		const items = [...this.#items.values()];
		this.#timeZone = timeZone;
		this.#items = new Map();
		this.#byWriter = new Map();
		this.#openings = new Set();
		this.#authority = new Authority();
		this.#corrections = new Corrections(this.#items);
		this.#ground = this.#newGround();
		this.#derivation = new Derivation(this.#corrections, this.#authority);
		this.#highestTime = 0;
		const fresh = items.map((item) => makeItem(item.entry, item.stamp, timeZone));
		for (const item of fresh) this.#register(item);
		this.#settle({ fresh, stamped: new Set(), removed: [], contradicted: false });
	}

	#newGround(): Ground {
		return {
			authority: this.#authority,
			holdings: new Holdings(),
			lines: new Holdings(),
			meetings: new Holdings()
		};
	}

	/** Judges what is new and all that depends on it, then makes the things concerned anew. */
	#settle({ fresh, stamped, removed }: News): void {
		const corrections = this.#corrections;
		const touched = new Set<Item>();
		// Things are touched with the old links and with the new: what was joined may come apart.
		for (const item of removed) this.#touch(item, touched);
		for (const item of fresh) corrections.link(item);
		for (const item of removed) corrections.unlink(item);
		const members = new Set<string>();
		for (const item of [...fresh, ...stamped])
			for (const member of this.#authority.take(item)) members.add(member);
		const orphans = removed.flatMap((item) => corrections.correctors(item));
		const moved = new Set([...stamped, ...orphans, ...corrections.rank([...fresh, ...stamped, ...orphans])]);
		for (const item of fresh) {
			this.#derivation.list(item);
			moved.delete(item);
		}
		for (const item of moved) this.#derivation.relist(item);
		for (const item of removed) this.#derivation.unlist(item);

		const queue = new JudgingQueue(fresh);
		const confirmed = new Set<Item>();
		// A rank that moved takes its holdings with it; what was removed leaves none.
		const counted = [...moved, ...removed].filter((item) => item.verdict.name === 'counts');
		for (const item of counted) this.#requeue(item, false, '', queue);
		for (const item of counted) if (moved.has(item)) this.#requeue(item, true, '', queue);
		for (const item of moved) queue.push(item);
		for (const member of members) this.#requeueWritten(member, touched, queue);
		for (const item of [...fresh, ...moved, ...removed]) {
			if (!corrections.isAlone(item)) for (const one of corrections.referrers(item)) queue.push(one);
			this.#touch(item, touched);
		}
		for (const item of removed) this.#noteConfirmed(item, confirmed);
		do {
			for (const item of confirmed) queue.push(item);
			confirmed.clear();
			for (let item = queue.pop(); item; item = queue.pop()) this.#judge(item, touched, queue, confirmed);
		} while (confirmed.size > 0);
		this.#derivation.run();
	}

	/** What a member wrote, when the member's roles or rooms changed. */
	#requeueWritten(member: string, touched: Set<Item>, queue: JudgingQueue): void {
		for (const written of this.#byWriter.get(member) ?? []) {
			queue.push(written);
			if (written.kind?.asksWhoKeeps || written.entry.kind === 'word/confirmed')
				this.#touch(written, touched);
		}
	}

	#judge(item: Item, touched: Set<Item>, queue: JudgingQueue, confirmed: Set<Item>): void {
		const before = item.verdict;
		const verdict = judge(item, this.#ground, this.#corrections);
		if (verdict.name === before.name && verdict.why === before.why) return;
		item.verdict = verdict;
		this.#touch(item, touched);
		const counted = before.name === 'counts';
		const counts = verdict.name === 'counts';
		if (counted === counts) return;
		this.#requeue(item, counts, item.rank, queue);
		this.#noteConfirmed(item, confirmed);
	}

	/** Puts an item's holdings in or takes them out, and has those judged again that stand after it. */
	#requeue(item: Item, counts: boolean, after: string, queue: JudgingQueue): void {
		for (const thing of this.#place(item, counts)) {
			for (const later of this.#derivation.itemsOf(thing)) {
				if (later === item || later.rank < after) continue;
				queue.push(later);
				for (const one of this.#corrections.referrers(later)) queue.push(one);
			}
		}
	}

	/**
	 * What a confirming tap confirms has to be judged again; also when the tap is taken back, and when that is taken
	 * back in turn. Once, after the rest, since many taps may speak of one entry.
	 */
	#noteConfirmed(item: Item, confirmed: Set<Item>): void {
		const taps = item.entry.kind === 'word/confirmed' ? [item] : this.#corrections.tapsBelow(item);
		for (const tap of taps) for (const target of this.#corrections.targets(tap)) confirmed.add(target);
	}

	#place(item: Item, counts: boolean): readonly string[] {
		const rooms = roomPlacings(item);
		const inMeeting = meetingPlacings(item);
		if (rooms.length === 0 && inMeeting.length === 0) return nothingPlaced;
		const { holdings, lines, meetings } = this.#ground;
		return [
			...holdings.set(item, rooms, counts),
			...lines.set(item, linePlacings(item, rooms), counts),
			...meetings.set(item, inMeeting, counts)
		];
	}

	/** The things of an entry, of all it corrects or speaks of, and of other versions of those, are made anew. */
	#touch(item: Item, touched: Set<Item>): void {
		if (this.#corrections.isAlone(item)) {
			this.#derivation.touch(item);
			return;
		}
		const work = [item];
		for (let next = work.pop(); next; next = work.pop()) {
			if (touched.has(next)) continue;
			touched.add(next);
			this.#derivation.touch(next);
			work.push(...this.#corrections.targets(next), ...this.#corrections.correctors(next));
		}
	}
}

const nothingPlaced: readonly string[] = [];

/** What one call brings. */
interface News {
	readonly fresh: Item[];
	/** Known entries that got their stamp. */
	readonly stamped: Set<Item>;
	readonly removed: readonly Item[];
	/** An id came with a second text. */
	contradicted: boolean;
}
