/**
 * Ids of new entries: UUID version 7, each later than the highest rank that the device has seen, so that an answer
 * never ranks before what it answers, even when this device's clock is behind.
 */
import { v7 } from 'uuid';
import type { EntryId } from '#records/entry.ts';

export class EntryIdMaker {
	#highestSeenMs = 0;
	#lastMs = 0;
	#sequence = 0;

	/** @param rankMs time of an entry's rank: the earlier of its id's time and its stamp, ms since 1970 */
	see(rankMs: number): void {
		if (rankMs > this.#highestSeenMs) this.#highestSeenMs = rankMs;
	}

	get highestSeenMs(): number {
		return this.#highestSeenMs;
	}

	make(nowMs: number): EntryId {
		const msecs = Math.max(nowMs, this.#highestSeenMs + 1, this.#lastMs);
		if (msecs > this.#lastMs) {
			this.#lastMs = msecs;
			// Random start in the lower half of the 32 bits, so that counting up never wraps.
			this.#sequence = crypto.getRandomValues(new Uint32Array(1))[0]! >>> 1;
		} else {
			this.#sequence++;
		}
		return v7({ msecs, seq: this.#sequence });
	}
}

/** Milliseconds since 1970 in the first 48 bits of a UUID version 7; `null` when it is not one. */
export function idTimeMs(id: EntryId): number | null {
	if (!/^[0-9a-f]{8}-[0-9a-f]{4}-7/.test(id)) return null;
	return Number.parseInt(id.slice(0, 8) + id.slice(9, 13), 16);
}
