import { randomFrom } from '#genetics/drop/randomFrom.ts';

/** Draws that the same seed always gives again. */
export interface Chance {
	/** A whole number from 0 to count - 1. */
	below(count: number): number;
	/** The numbers 0 to count - 1 in a random order (Fisher & Yates 1938). */
	order(count: number): Int32Array;
}

/** @param seed a whole number; the same seed gives the same draws on every machine */
export function chanceFrom(seed: number): Chance {
	const random = randomFrom(seed);
	const below = (count: number) => Math.floor(random() * count);
	return {
		below,
		order(count) {
			const order = Int32Array.from({ length: count }, (_, i) => i);
			for (let i = count - 1; i > 0; i--) {
				const j = below(i + 1);
				[order[i], order[j]] = [order[j]!, order[i]!];
			}
			return order;
		}
	};
}
