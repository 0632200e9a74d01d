/** Items still to be judged, lowest rank first; each at most once. What arrives in bulk is sorted, the rest is a heap. */
import type { Item } from './item.ts';

export class JudgingQueue {
	readonly #sorted: Item[] = [];
	#next = 0;
	readonly #heap: Item[] = [];

	/** Takes many at once, before anything is popped. */
	constructor(items: Iterable<Item>) {
		for (const item of items) {
			if (item.queued) continue;
			item.queued = true;
			this.#sorted.push(item);
		}
		this.#sorted.sort((a, b) => (a.rank < b.rank ? -1 : 1));
	}

	push(item: Item): void {
		if (item.queued) return;
		item.queued = true;
		const heap = this.#heap;
		let at = heap.push(item) - 1;
		while (at > 0) {
			const up = (at - 1) >> 1;
			if ((heap[up] as Item).rank <= item.rank) break;
			heap[at] = heap[up] as Item;
			at = up;
		}
		heap[at] = item;
	}

	pop(): Item | null {
		const sorted = this.#sorted[this.#next];
		const heaped = this.#heap[0];
		let item: Item | null;
		if (sorted && !(heaped && heaped.rank < sorted.rank)) {
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
				if (down + 1 < heap.length && (heap[down + 1] as Item).rank < (heap[down] as Item).rank) down++;
				if ((heap[down] as Item).rank >= last.rank) break;
				heap[at] = heap[down] as Item;
				at = down;
			}
			heap[at] = last;
		}
		return first;
	}
}
