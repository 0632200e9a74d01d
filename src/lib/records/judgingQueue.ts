/** Items still to be judged, lowest rank first; each at most once. What arrives in bulk is sorted, the rest is a heap. */
import type { Item } from './item.ts';
import { compareRanks } from './rank.ts';

export class JudgingQueue {
	readonly #sorted: Item[];
	#next = 0;
	readonly #heap: Item[] = [];

	/** Takes many at once, before anything is popped. */
	constructor(items: readonly Item[]) {
		this.#sorted = [...items];
		for (const item of items) item.queued = true;
		this.#sorted.sort((a, b) => compareRanks(a.rank, b.rank));
	}

	push(item: Item): void {
		if (item.queued) return;
		item.queued = true;
		const heap = this.#heap;
		let at = heap.push(item) - 1;
		while (at > 0) {
			const up = (at - 1) >> 1;
			if (compareRanks((heap[up] as Item).rank, item.rank) <= 0) break;
			heap[at] = heap[up] as Item;
			at = up;
		}
		heap[at] = item;
	}

	pop(): Item | null {
		const sorted = this.#sorted[this.#next];
		const heaped = this.#heap[0];
		let item: Item | null;
		if (sorted && !(heaped && compareRanks(heaped.rank, sorted.rank) < 0)) {
			item = sorted;
			this.#next++;
		} else item = this.#popHeap();
		if (item) item.queued = false;
		return item;
	}

	#popHeap(): Item | null {
		const heap = this.#heap;
		const first = heap[0];
		const last = heap.pop();
		if (!first || !last) return null;
		if (heap.length > 0) {
			let at = 0;
			for (;;) {
				let down = 2 * at + 1;
				if (down >= heap.length) break;
				if (down + 1 < heap.length && isLower(heap[down + 1] as Item, heap[down] as Item)) down++;
				if (!isLower(heap[down] as Item, last)) break;
				heap[at] = heap[down] as Item;
				at = down;
			}
			heap[at] = last;
		}
		return first;
	}
}

function isLower(a: Item, b: Item): boolean {
	return compareRanks(a.rank, b.rank) < 0;
}
