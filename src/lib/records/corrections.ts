/**
 * Who corrects whom (SPEC R12 to R14, R31 to R35): circles, ranks of corrections, what stands and what is replaced.
 * Everything here follows links between entries; chains of any length are walked with loops, not with the stack.
 */
import type { EntryId } from './entry.ts';
import { familyOf, type Family, type Fork } from './families.ts';
import type { Item } from './item.ts';
import { compareRanks, correctionRank, rankText, type Rank } from './rank.ts';

const noItems: readonly Item[] = [];
const noForks: readonly Fork[] = [];

export class Corrections {
	readonly #items: ReadonlyMap<EntryId, Item>;
	/** Entries not heard of -> those that correct them or speak of them. */
	readonly #awaited = new Map<EntryId, Set<Item>>();
	/** Families as they stand between two changes; see `forgetFamilies`. */
	#families = new Map<Item, Family>();

	constructor(items: ReadonlyMap<EntryId, Item>) {
		this.#items = items;
	}

	link(item: Item): void {
		const awaiting = this.#awaited.size > 0 ? this.#awaited.get(item.entry.id) : undefined;
		if (awaiting) {
			this.#awaited.delete(item.entry.id);
			for (const one of item.referrers ?? noItems) awaiting.add(one);
			item.referrers = awaiting;
		}
		for (const target of item.corrects) this.#refer(target, item);
		for (const target of item.speaksOf) this.#refer(target, item);
	}

	#refer(target: EntryId, item: Item): void {
		const known = this.#items.get(target);
		const referrers = known ? known.referrers : this.#awaited.get(target);
		if (referrers) referrers.add(item);
		else if (known) known.referrers = new Set([item]);
		else this.#awaited.set(target, new Set([item]));
	}

	/** To be called for an item that is no longer among the items. */
	unlink(item: Item): void {
		for (const target of [...item.corrects, ...item.speaksOf]) {
			(this.#items.get(target)?.referrers ?? this.#awaited.get(target))?.delete(item);
		}
		if (item.referrers?.size) this.#awaited.set(item.entry.id, item.referrers);
	}

	/** Entries that correct this one or speak of it. */
	referrers(item: Item): Iterable<Item> {
		return item.referrers ?? noItems;
	}

	/** What it corrects or speaks of, where known. */
	targets(item: Item): readonly Item[] {
		if (item.corrects.length === 0 && item.speaksOf.length === 0) return noItems;
		return [...item.corrects, ...item.speaksOf].flatMap((id) => this.#items.get(id) ?? []);
	}

	item(id: EntryId): Item | null {
		return this.#items.get(id) ?? null;
	}

	/** Where an entry stands; '' for one not heard of. */
	rankOf(id: EntryId): string {
		const item = this.#items.get(id);
		return item ? rankText(item.rank) : '';
	}

	/** Whether an entry stands alone: nothing that it names, nothing that names it. */
	isAlone(item: Item): boolean {
		return item.referrers === null && item.corrects.length === 0 && item.speaksOf.length === 0;
	}

	/**
	 * Sets rank and place of items and of all that correct them, what is corrected first, so that each is set once;
	 * returns those others whose rank or place changed, and all of a circle that they close.
	 */
	rank(items: Iterable<Item>): Item[] {
		const correcting: Item[] = [];
		const named: Item[] = [];
		// Most entries correct nothing and are not corrected: they stand where they stand.
		for (const item of items) {
			if (item.corrects.length > 0) correcting.push(item);
			else {
				item.rank = item.place = item.own;
				if (item.referrers) named.push(item);
			}
		}
		const circles: Item[] = [];
		const pending = new Set([...this.#correctedFirst(correcting, circles), ...circles]);
		const changed: Item[] = [...circles];
		for (const item of named) this.#passOn(item, pending, changed);
		for (const item of pending) {
			pending.delete(item);
			this.#setRank(item);
			if (item.referrers) this.#passOn(item, pending, changed);
		}
		return changed;
	}

	#passOn(item: Item, pending: ReadonlySet<Item>, changed: Item[]): void {
		// First come, first served: a tangle of corrections settles in a bounded number of rounds.
		const work = new Set(this.correctors(item));
		for (const next of work) {
			work.delete(next);
			if (next.inCircle || pending.has(next)) continue;
			const { rank, place } = next;
			this.#setRank(next);
			if (compareRanks(next.rank, rank) === 0 && compareRanks(next.place, place) === 0) continue;
			changed.push(next);
			for (const one of this.correctors(next)) work.add(one);
		}
	}

	/** The items in an order in which each comes after what it corrects; circles are marked and told. */
	#correctedFirst(items: readonly Item[], circles: Item[]): Item[] {
		const order: Item[] = [];
		const wanted = new Set(items);
		const open = new Set<Item>();
		const done = new Set<Item>();
		const stack: { item: Item; rest: Item[] }[] = [];
		const enter = (item: Item) => {
			if (open.has(item)) circles.push(...this.#markCircle(item));
			if (open.has(item) || done.has(item)) return;
			open.add(item);
			stack.push({ item, rest: [...this.#corrected(item)] });
		};
		for (const start of wanted) {
			enter(start);
			for (let top = stack.at(-1); top; top = stack.at(-1)) {
				const next = top.rest.pop();
				if (next) {
					if (next.corrects.length) enter(next);
					continue;
				}
				stack.pop();
				open.delete(top.item);
				done.add(top.item);
				if (wanted.has(top.item)) order.push(top.item);
			}
		}
		return order;
	}

	#setRank(item: Item): void {
		let highest: Rank | null = null;
		let place = item.own;
		let overTap = false;
		if (!item.inCircle) {
			for (const id of item.corrects) {
				const target = this.#items.get(id);
				if (!target) continue;
				if (highest === null || compareRanks(target.rank, highest) > 0) highest = target.rank;
				if (compareRanks(target.place, place) < 0) place = target.place;
				if (target.overTap || target.kind?.kind === 'word/confirmed') overTap = true;
			}
		}
		item.overTap = overTap;
		item.rank = highest === null ? item.own : correctionRank(item.own, highest);
		item.place = place;
	}

	/** Entries that correct this one, whatever their verdict. */
	correctors(item: Item): readonly Item[] {
		if (!item.referrers?.size) return noItems;
		return [...item.referrers].filter((one) => one.corrects.includes(item.entry.id));
	}

	#corrected(item: Item): readonly Item[] {
		return item.corrects.length === 0 ? noItems : item.corrects.flatMap((id) => this.#items.get(id) ?? []);
	}

	/** Marks all entries on a circle of corrections through this one; returns those that were not marked before. */
	#markCircle(start: Item): readonly Item[] {
		const forward = new Set<Item>();
		const down = [start];
		for (let item = down.pop(); item; item = down.pop()) {
			for (const target of this.#corrected(item)) {
				if (forward.has(target)) continue;
				forward.add(target);
				down.push(target);
			}
		}
		if (!forward.has(start)) return noItems;
		const circle = new Set<Item>([start]);
		for (const item of circle) for (const one of this.correctors(item)) if (forward.has(one)) circle.add(one);
		const marked = [...circle].filter((item) => !item.inCircle);
		for (const item of marked) item.inCircle = true;
		return marked;
	}

	/** To be called whenever verdicts, ranks or links may have changed. */
	forgetFamilies(): void {
		if (this.#families.size) this.#families = new Map();
	}

	/** The family of an item by its corrections, or null for one that corrects nothing and is not corrected. */
	family(item: Item): Family | null {
		const known = this.#families.get(item);
		if (known) return known;
		const family = this.familyNow(item);
		if (family) for (const member of family.members) this.#families.set(member, family);
		return family;
	}

	/** The same, from verdicts as they stand while entries are being judged. */
	familyNow(item: Item): Family | null {
		if (item.corrects.length === 0 && this.correctors(item).length === 0) return null;
		return familyOf(
			item,
			(one) => this.#corrected(one),
			(one) => this.correctors(one)
		);
	}

	/** Entries that correct this one, count, and were not taken back themselves. */
	live(item: Item): readonly Item[] {
		return this.family(item)?.live.get(item) ?? noItems;
	}

	/** Whether something else stands in its place, or a decision has set it aside. */
	isReplaced(item: Item): boolean {
		if (item.referrers === null) return false;
		return this.live(item).length > 0 || this.isSetAside(item);
	}

	/** The last counting decision on a dispute of this entry says that it does not stand. */
	isSetAside(item: Item): boolean {
		let last: Item | null = null;
		for (const one of this.referrers(item)) {
			const isDecision =
				one.kind?.kind === 'word/decided' && (one.body as { of?: string } | null)?.of === item.entry.id;
			if (!isDecision || one.verdict.name !== 'counts' || this.live(one).length > 0) continue;
			if (!last || compareRanks(one.rank, last.rank) > 0) last = one;
		}
		return last !== null && (last.body as { stands: boolean }).stands === false;
	}

	/** A version that stands back behind a later one which had not seen it. */
	isLesser(item: Item): boolean {
		return this.family(item)?.lesser.has(item) ?? false;
	}

	/** The forks that this entry is part of, as one of the versions or as what they are versions of. */
	forks(item: Item): readonly Fork[] {
		const forks = this.family(item)?.forks;
		return forks?.length ? forks.filter((fork) => fork.of.has(item) || fork.ends.includes(item)) : noForks;
	}

	/** Confirming taps that an entry corrects or takes back, directly or through others. */
	tapsBelow(item: Item): Item[] {
		if (!item.overTap) return [];
		const below = new Set([item]);
		for (const one of below) for (const target of this.#corrected(one)) below.add(target);
		return [...below].filter((one) => one.kind?.kind === 'word/confirmed');
	}

	/** Confirming taps on an entry that count and were not taken back, asked while entries are being judged. */
	confirmations(item: Item): Item[] {
		const taps: Item[] = [];
		for (const one of this.referrers(item)) {
			if (one.kind?.kind !== 'word/confirmed' || one.verdict.name !== 'counts') continue;
			if (!this.familyNow(one)?.live.get(one)?.length) taps.push(one);
		}
		return taps;
	}
}
