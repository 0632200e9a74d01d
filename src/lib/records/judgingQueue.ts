/** Items still to be judged, lowest rank first; each at most once. */
import type { Item } from './item.ts';

export class JudgingQueue {
	readonly #heap: Item[] = [];
	readonly #waiting = new Set<Item>();

	push(item: Item): void {
		if (this.#waiting.has(item)) return;
		this.#waiting.add(item);
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
		this.#waiting.delete(first);
		return first;
	}
}
