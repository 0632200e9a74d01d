import { drawDifferent, type GroupKinship } from '#genetics/groups/table.ts';
import type { Place } from './place.ts';

/** What a generation came to. */
export interface Measured {
	readonly inbreeding: number;
	readonly geneDiversity: number;
}

/** Kinship of each fish with each, generation by generation; the tables are made once and used for every future. */
export class FishKinship {
	readonly #size: number;
	#now: Float64Array;
	#next: Float64Array;
	/** For each young and each fish before it: mean kinship of the young's two parents with that fish. */
	readonly #half: Float64Array;

	constructor(size: number) {
		this.#size = size;
		this.#now = new Float64Array(size * size);
		this.#next = new Float64Array(size * size);
		this.#half = new Float64Array(size * size);
	}

	/** Row by row; another array after each generation. */
	get now(): Float64Array {
		return this.#now;
	}

	/** @param unit of each fish, by its number in the table */
	begin(table: GroupKinship, unit: Int32Array): void {
		const n = this.#size;
		for (let i = 0; i < n; i++)
			for (let j = 0; j < n; j++)
				this.#now[i * n + j] = i === j ? table.self[unit[i]!]! : drawDifferent(table, unit[i]!, unit[j]!);
	}

	/** The tables of the young (Wright 1922): each is half its father and half its mother. */
	breed(sires: Int32Array, dams: Int32Array): void {
		const n = this.#size;
		const [now, next, half] = [this.#now, this.#next, this.#half];
		for (let i = 0; i < n; i++) {
			const [row, sire, dam] = [i * n, sires[i]! * n, dams[i]! * n];
			for (let x = 0; x < n; x++) half[row + x] = (now[sire + x]! + now[dam + x]!) / 2;
		}
		for (let i = 0; i < n; i++) {
			const row = i * n;
			for (let j = 0; j < i; j++)
				next[row + j] = next[j * n + i] = (half[row + sires[j]!]! + half[row + dams[j]!]!) / 2;
			next[row + i] = (1 + now[sires[i]! * n + dams[i]!]!) / 2;
		}
		[this.#now, this.#next] = [next, now];
	}

	/** Over the rooms that hold the line; at least one does. */
	measure(places: readonly Place[], holds: Uint8Array): Measured {
		const n = this.#size;
		let [fish, self, all] = [0, 0, 0];
		for (const [one, a] of places.entries()) {
			if (!holds[one]) continue;
			fish += a.end - a.first;
			for (const [other, b] of places.entries()) {
				if (!holds[other]) continue;
				for (let i = a.first; i < a.end; i++)
					for (let j = b.first; j < b.end; j++) all += this.#now[i * n + j]!;
			}
			for (let i = a.first; i < a.end; i++) self += this.#now[i * n + i]!;
		}
		return { inbreeding: Math.max(0, (2 * self) / fish - 1), geneDiversity: 1 - all / fish ** 2 };
	}
}
