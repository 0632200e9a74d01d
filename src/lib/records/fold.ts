/**
 * The fold: the same set of entries and stamps gives the same club state, whatever the order of arrival, with or
 * without a saved state, on every device (SPEC.md). A late entry re-derives only the things it is about and those
 * that depend on them.
 */
import { Authority, type MemberRights, type Shift } from './authority.ts';
import { Corrections } from './corrections.ts';
import { Derivation } from './derivation.ts';
import { Dossiers } from './dossier.ts';
import type { Entry, EntryId, Stamp } from './entry.ts';
import { compareRanks, idTime, ownRank, type Rank } from './rank.ts';
import { makeItem, restoreItem, saveItem, type Item, type Surroundings } from './item.ts';
import { judge } from './judge.ts';
import { JudgingQueue } from './judgingQueue.ts';
import { placeThings } from './placeThings.ts';
import { isTimeZone, readEntries, zoneIn, type FoldInput } from './readInputs.ts';
import { mayJudgeAnew, mayTellAnew } from './shifts.ts';
import type { ClubState, EntryView } from './state.ts';

/** Raised whenever the fold may make another state of the same entries: saved states of other versions are dropped. */
export const foldVersion = 9;

export type { FoldInput };

/** What a device keeps to open fast, as plain data: entries that need no checking and judging any more. */
export interface SavedFold {
	readonly foldVersion: number;
	readonly timeZone: string;
	readonly items: readonly string[];
	readonly lateStamps: readonly Stamp[];
}

export class Fold {
	#items = new Map<EntryId, Item>();
	#lateStamps = new Map<EntryId, Stamp>();
	#written = new Map<MemberRights, Item[]>();
	/** Entries that open the club: the first of them gives the time zone. */
	#openings = new Set<Item>();
	#surroundings: Surroundings = { dossiers: new Dossiers(), authority: new Authority(), timeZone: 'UTC' };
	#corrections = new Corrections(this.#items);
	#derivation = new Derivation(this.#corrections, this.#surroundings);
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
			.sort((a, b) => compareRanks(a.rank, b.rank))
			.map((one) => one.entry);
	}

	/** Orders entries as the club's history does; '' for one that the fold does not have. */
	rankOf(id: EntryId): string {
		return this.#corrections.rankOf(id);
	}

	/** Takes entries and stamps in, in any order, any number of times. */
	add(inputs: Iterable<FoldInput>): void {
		const news: News = { fresh: [], stamped: new Set(), removed: [], contradicted: false };
		const given = Array.isArray(inputs) ? (inputs as readonly FoldInput[]) : [...inputs];
		const entries = readEntries(given);
		// The first entries of a club bring its time zone: known beforehand, nothing is read twice.
		if (this.#items.size === 0) this.#begin(zoneIn(entries) ?? 'UTC');
		given.forEach((input, i) => this.#take(input, entries[i] ?? null, news));
		if (news.fresh.length === 0 && news.stamped.size === 0) return;
		const zone = this.#zone();
		if (zone !== this.#surroundings.timeZone || news.contradicted) this.#rebuild(zone);
		else this.#settle(news);
	}

	/** Takes an entry out again: only for one that was never shared (undo). */
	remove(id: EntryId): void {
		const item = this.#items.get(id);
		if (!item) return;
		this.#items.delete(id);
		const written = this.#written.get(item.rights);
		written?.splice(written.lastIndexOf(item), 1);
		this.#openings.delete(item);
		this.#highestTime = null;
		// The server's own entries and circles reach everywhere; nobody undoes those by hand.
		if (item.entry.by === 'club' || item.inCircle) this.#rebuild(this.#zone());
		else this.#settle({ fresh: [], stamped: new Set(), removed: [item], contradicted: false });
	}

	save(): SavedFold {
		return {
			foldVersion,
			timeZone: this.#surroundings.timeZone,
			items: [...this.#items.values()].map(saveItem),
			lateStamps: [...this.#lateStamps.values()]
		};
	}

	/** A fold from a saved one; null when it was saved by another version of the fold. */
	static restore(saved: SavedFold): Fold | null {
		if (saved.foldVersion !== foldVersion) return null;
		const fold = new Fold();
		fold.#begin(saved.timeZone);
		for (const stamp of saved.lateStamps) fold.#lateStamps.set(stamp.id, stamp);
		const items = saved.items.map((text) => restoreItem(text, fold.#surroundings));
		for (const item of items) fold.#register(item);
		for (const item of items) {
			fold.#corrections.link(item);
			fold.#surroundings.authority.take(item);
		}
		fold.#corrections.rank(items);
		for (const item of items) {
			if (item.verdict.name === 'counts') placeThings(item, item.rank);
			fold.#derivation.list(item);
		}
		fold.#derivation.run();
		return fold;
	}

	/** Everything from the start: no entries, and dates read in this time zone. */
	#begin(timeZone: string): void {
		this.#items = new Map();
		this.#written = new Map();
		this.#openings = new Set();
		this.#highestTime = 0;
		this.#surroundings = { dossiers: new Dossiers(), authority: new Authority(), timeZone };
		this.#corrections = new Corrections(this.#items);
		this.#derivation = new Derivation(this.#corrections, this.#surroundings);
	}

	#take({ text, stamp }: FoldInput, entry: Entry | null, news: News): void {
		if (!entry) {
			if (stamp) this.#takeStamp(stamp, news);
			// The text of an erased row is empty: nothing to complain of.
			else if (text !== '') this.#unreadable++;
			return;
		}
		const known = this.#items.get(entry.id);
		if (known) this.#takeAgain(known, entry, news);
		else {
			const item = makeItem(entry, stamp ?? this.#lateStamps.get(entry.id) ?? null, this.#surroundings);
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
		const other = makeItem(entry, known.stamp, this.#surroundings);
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
			known.own = ownRank(Math.min(known.own.time, stamp.time), known.entry.id);
			this.#highestTime = null;
			news.stamped.add(known);
		}
	}

	#register(item: Item): void {
		this.#items.set(item.entry.id, item);
		const written = this.#written.get(item.rights);
		if (written) written.push(item);
		else this.#written.set(item.rights, [item]);
		if (item.entry.kind === 'club/opened' && item.entry.by === 'club' && item.problem === '') {
			this.#openings.add(item);
		}
		this.#noteTime(item);
	}

	#noteTime(item: Item): void {
		const { time } = item.own;
		if (this.#highestTime !== null && time > this.#highestTime) this.#highestTime = time;
	}

	#zone(): string {
		let first: Item | null = null;
		for (const item of this.#openings) {
			if (
				isTimeZone((item.body as { timeZone: string }).timeZone) &&
				(!first || compareRanks(item.own, first.own) < 0)
			) {
				first = item;
			}
		}
		return first ? (first.body as { timeZone: string }).timeZone : 'UTC';
	}

	#rebuild(timeZone: string): void {
		const items = [...this.#items.values()];
		this.#begin(timeZone);
		const fresh = items.map((item) => makeItem(item.entry, item.stamp, this.#surroundings));
		for (const item of fresh) this.#register(item);
		this.#settle({ fresh, stamped: new Set(), removed: [], contradicted: false });
	}

	/** Judges what is new and all that depends on it, then makes the things concerned anew. */
	#settle({ fresh, stamped, removed }: News): void {
		const corrections = this.#corrections;
		const touched = new Set<Item>();
		// Things are touched with the old links and with the new: what was joined may come apart.
		for (const item of removed) this.#touch(item, touched);
		for (const item of fresh) corrections.link(item);
		for (const item of removed) corrections.unlink(item);
		const shifts: Shift[] = [];
		for (const items of [fresh, stamped]) {
			for (const item of items)
				if (item.entry.by === 'club') shifts.push(...this.#surroundings.authority.take(item));
		}
		const orphans = removed.flatMap((item) => corrections.correctors(item));
		const ranked = stamped.size + orphans.length > 0 ? [...fresh, ...stamped, ...orphans] : fresh;
		const moved = new Set([...stamped, ...orphans, ...corrections.rank(ranked)]);
		if (moved.size > 0) for (const item of fresh) moved.delete(item);
		for (const item of fresh) this.#derivation.list(item);
		for (const item of moved) this.#derivation.relist(item);
		for (const item of removed) this.#derivation.unlist(item);

		const queue = new JudgingQueue(fresh);
		const confirmed = new Set<Item>();
		// A rank that moved takes its holdings with it; what was removed leaves none.
		const counted = [...moved, ...removed].filter((item) => item.verdict.name === 'counts');
		for (const item of counted) this.#place(item, null, null, queue);
		for (const item of counted) if (moved.has(item)) this.#place(item, item.rank, null, queue);
		for (const item of moved) queue.push(item);
		// A first batch is judged and told as a whole.
		const isFirst = fresh.length === this.#items.size;
		if (!isFirst) for (const shift of shifts) this.#requeueWritten(shift, touched, queue, confirmed);
		for (const items of [fresh, moved, removed])
			for (const item of items) {
				if (corrections.isAlone(item)) continue;
				for (const one of corrections.referrers(item)) queue.push(one);
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

	/** What a member wrote is judged again, as far as a change of that member's rights can touch it. */
	#requeueWritten(shift: Shift, touched: Set<Item>, queue: JudgingQueue, confirmed: Set<Item>): void {
		for (const item of this.#written.get(shift.rights) ?? []) {
			if (mayJudgeAnew(shift, item)) queue.push(item);
			if (mayTellAnew(shift, item)) this.#touch(item, touched);
			if (item.kind?.kind !== 'word/confirmed') continue;
			// A tap speaks in the entry that it confirms: for one more of its things, or from that side of it.
			for (const target of this.#corrections.targets(item)) {
				confirmed.add(target);
				if (mayTellAnew(shift, target)) this.#touch(target, touched);
			}
		}
	}

	#judge(item: Item, touched: Set<Item>, queue: JudgingQueue, confirmed: Set<Item>): void {
		const before = item.verdict;
		const verdict = judge(item, this.#surroundings.authority, this.#corrections);
		if (verdict === before || (verdict.name === before.name && verdict.why === before.why)) return;
		item.verdict = verdict;
		this.#touch(item, touched);
		const counted = before.name === 'counts';
		const counts = verdict.name === 'counts';
		if (counted === counts) return;
		this.#place(item, counts ? item.rank : null, item.rank, queue);
		this.#noteConfirmed(item, confirmed);
	}

	/**
	 * Puts an item's holdings in or takes them out, and has those judged again that stand after it.
	 *
	 * @param rank null = takes them out
	 * @param after null = all are judged again
	 */
	#place(item: Item, rank: Rank | null, after: Rank | null, queue: JudgingQueue): void {
		for (const dossier of placeThings(item, rank)) {
			for (const later of dossier.items) {
				if (later === item || (after && compareRanks(later.rank, after) < 0)) continue;
				queue.push(later);
				if (later.referrers) for (const one of later.referrers) queue.push(one);
			}
		}
	}

	/**
	 * What a confirming tap confirms has to be judged again; also when the tap is taken back, and when that is taken
	 * back in turn. Once, after the rest, since many taps may speak of one entry.
	 */
	#noteConfirmed(item: Item, confirmed: Set<Item>): void {
		const isTap = item.kind?.kind === 'word/confirmed';
		if (!isTap && !item.overTap) return;
		const taps = isTap ? [item] : this.#corrections.tapsBelow(item);
		for (const tap of taps) for (const target of this.#corrections.targets(tap)) confirmed.add(target);
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

/** What one call brings. */
interface News {
	readonly fresh: Item[];
	/** Known entries that got their stamp. */
	readonly stamped: Set<Item>;
	readonly removed: readonly Item[];
	/** An id came with a second text. */
	contradicted: boolean;
}
