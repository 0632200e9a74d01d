/** Seeded chance: the same seed throws the same. */
export interface Dice {
	/** 0 or more, below 1. */
	next(): number;
	/** A whole number from `from` to `to`, both included. */
	whole(from: number, to: number): number;
	chance(probability: number): boolean;
	pick<Item>(list: readonly Item[]): Item;
}

/** Generator: mulberry32 (Tommy Ettinger, public domain). */
export function createDice(seed: number): Dice {
	let state = seed >>> 0;
	const next = () => {
		state = (state + 0x6d2b79f5) >>> 0;
		let mixed = Math.imul(state ^ (state >>> 15), state | 1);
		mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
		return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
	};
	return {
		next,
		whole: (from, to) => from + Math.floor(next() * (to - from + 1)),
		chance: (probability) => next() < probability,
		pick<Item>(list: readonly Item[]): Item {
			if (list.length === 0) throw new RangeError('pick requires a list that is not empty');
			return list[Math.floor(next() * list.length)] as Item;
		}
	};
}
