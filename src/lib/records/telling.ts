/** One entry as it is handed to its kind: read, judged to count, not replaced (kind.ts, `Told`). */
import type { Authority } from './authority.ts';
import type { Corrections } from './corrections.ts';
import type { Entry, ThingId } from './entry.ts';
import { happened, type When } from './happened.ts';
import type { Item } from './item.ts';
import type { Told } from './kind.ts';
import { momentOf } from './rights.ts';

const never: When = { first: 0, last: 0, text: '' };

export class Telling implements Told {
	readonly entry: Entry;
	readonly body: unknown;
	readonly when: When;
	readonly n: number | null;
	readonly #item: Item;
	readonly #authority: Authority;
	readonly #corrections: Corrections;
	readonly #timeZone: string;

	constructor(item: Item, authority: Authority, corrections: Corrections, timeZone: string) {
		this.entry = item.entry;
		this.body = item.body;
		this.when = item.when ?? never;
		this.n = item.stamp?.n ?? null;
		this.#item = item;
		this.#authority = authority;
		this.#corrections = corrections;
		this.#timeZone = timeZone;
	}

	endOf(day: string): number {
		return happened(day, this.#timeZone)?.last ?? this.when.last;
	}

	keeps(room: ThingId): boolean {
		const at = momentOf(this.#item);
		if (this.#authority.keeps(this.#item.rights, room, at)) return true;
		return this.#corrections
			.confirmations(this.#item)
			.some((tap) => this.#authority.keeps(tap.rights, room, at));
	}
}
