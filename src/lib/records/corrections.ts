/**
 * Who corrects whom (SPEC R12 to R14, R31 to R35): circles, ranks of corrections, what stands and what is replaced.
 * Everything here follows links between entries; chains of any length are walked with loops, not with the stack.
 */
import type { EntryId } from './entry.ts';
import type { Item } from './item.ts';
import { correctionRank } from './rank.ts';

/** Withdrawals of withdrawals are followed this deep; a longer chain is no honest writer's. */
const deepestWithdrawal = 64;

export class Corrections {
	readonly #items: ReadonlyMap<EntryId, Item>;
	/** Entry -> those that correct it or speak of it, known or not. */
	readonly #referrers = new Map<EntryId, Set<Item>>();

	constructor(items: ReadonlyMap<EntryId, Item>) {
		this.#items = items;
	}

	link(item: Item): void {
		for (const target of [...item.corrects, ...item.speaksOf]) {
			const referrers = this.#referrers.get(target);
			if (referrers) referrers.add(item);
			else this.#referrers.set(target, new Set([item]));
		}
		if (item.corrects.length && this.#correctorItems(item).length) this.#markCircle(item);
	}

	unlink(item: Item): void {
		for (const target of [...item.corrects, ...item.speaksOf]) this.#referrers.get(target)?.delete(item);
	}

	referrers(item: Item): Iterable<Item> {
		return this.#referrers.get(item.entry.id) ?? [];
	}

	targets(item: Item): Item[] {
		return [...item.corrects, ...item.speaksOf].flatMap((id) => this.#items.get(id) ?? []);
	}

	/** Sets rank and place of an item and of all that correct it; returns those whose rank or place changed. */
	rank(item: Item): Item[] {
		const changed: Item[] = [];
		const work = [item];
		for (let next = work.pop(); next; next = work.pop()) {
			const before = `${next.rank} ${next.place}`;
			this.#setRank(next);
			if (next !== item && `${next.rank} ${next.place}` === before) continue;
			changed.push(next);
			if (!next.inCircle) work.push(...this.#correctorItems(next).filter((one) => !one.inCircle));
		}
		return changed;
	}

	#setRank(item: Item): void {
		let highest = '';
		let place = item.own;
		if (!item.inCircle) {
			for (const id of item.corrects) {
				const target = this.#items.get(id);
				if (!target) continue;
				if (target.rank > highest) highest = target.rank;
				if (target.place < place) place = target.place;
			}
		}
		item.rank = highest === '' ? item.own : correctionRank(item.own, highest);
		item.place = place;
	}

	#correctorItems(item: Item): Item[] {
		const referrers = this.#referrers.get(item.entry.id);
		return referrers ? [...referrers].filter((one) => one.corrects.includes(item.entry.id)) : [];
	}

	/** All entries on a circle of corrections through this one. */
	#markCircle(start: Item): void {
		const forward = new Set<Item>();
		const down = [start];
		for (let item = down.pop(); item; item = down.pop()) {
			for (const id of item.corrects) {
				const target = this.#items.get(id);
				if (target && !forward.has(target)) {
					forward.add(target);
					down.push(target);
				}
			}
		}
		if (!forward.has(start)) return;
		const up = [start];
		const circle = new Set<Item>([start]);
		for (let item = up.pop(); item; item = up.pop()) {
			for (const one of this.#correctorItems(item)) {
				if (forward.has(one) && !circle.has(one)) {
					circle.add(one);
					up.push(one);
				}
			}
		}
		for (const item of circle) item.inCircle = true;
	}

	/** Entries that correct this one, count, and were not taken back themselves. */
	live(item: Item): Item[] {
		const referrers = this.#referrers.get(item.entry.id);
		if (!referrers) return [];
		return this.#correctorItems(item)
			.filter((one) => one.verdict.name === 'counts' && !this.#takenBack(one, 0))
			.sort((a, b) => (a.rank < b.rank ? -1 : 1));
	}

	#takenBack(item: Item, depth: number): boolean {
		if (depth > deepestWithdrawal) return false;
		return this.#correctorItems(item).some(
			(one) =>
				one.entry.kind === 'word/withdrawn' &&
				one.verdict.name === 'counts' &&
				!this.#takenBack(one, depth + 1)
		);
	}

	/** Whether something else stands in its place, or a decision has set it aside. */
	isReplaced(item: Item): boolean {
		return this.#referrers.has(item.entry.id) && (this.live(item).length > 0 || this.isSetAside(item));
	}

	/** The last counting decision on a dispute of this entry says that it does not stand. */
	isSetAside(item: Item): boolean {
		let last: Item | null = null;
		for (const one of this.referrers(item)) {
			const isDecision =
				one.entry.kind === 'word/decided' && (one.body as { of?: string } | null)?.of === item.entry.id;
			if (isDecision && one.verdict.name === 'counts' && (!last || one.rank > last.rank)) last = one;
		}
		return last !== null && (last.body as { stands: boolean }).stands === false;
	}

	/**
	 * What now stands for an entry that nobody's correction of it is known to have replaced together: more than one
	 * means two versions that had not seen each other. Highest rank last.
	 */
	versions(item: Item): Item[] {
		const seen = new Set<Item>();
		const ends: Item[] = [];
		const work = [item];
		for (let next = work.pop(); next; next = work.pop()) {
			const live = this.live(next);
			if (live.length === 0 && next !== item) ends.push(next);
			for (const one of live) {
				if (!seen.has(one)) {
					seen.add(one);
					work.push(one);
				}
			}
		}
		return ends.sort((a, b) => (a.rank < b.rank ? -1 : 1));
	}
}
