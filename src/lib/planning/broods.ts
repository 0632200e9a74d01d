/**
 * A simulated line: rooms with the same number of breeders, known one by one through the brood each came from.
 *
 * Brood b of room r is number r x pairs + b. Fish of one brood are alike, so the table goes over broods, not fish.
 */
export interface Broods {
	readonly rooms: number;
	/** Broods of one room: one of every female. */
	readonly pairs: number;
	/** Kinship of two different fish: brood x brood, row by row. */
	readonly between: Float64Array;
	/** Inbreeding of a fish of each brood. */
	readonly inbreeding: Float64Array;
}

/**
 * The brood that each breeder came from. Room r has slots r x 2 x pairs and on: first its males, then its females.
 */
export type Breeders = Int32Array;

/** Kinship of the fish in two slots, which are one fish when the slots are equal. */
export function kinshipOfSlots(broods: Broods, breeders: Breeders, one: number, other: number): number {
	const a = breeders[one]!;
	if (one === other) return (1 + broods.inbreeding[a]!) / 2;
	return broods.between[a * broods.inbreeding.length + breeders[other]!]!;
}

/**
 * Broods of the next generation (Wright 1922: a quarter of the kinships of the four pairs of parents).
 *
 * @param mates for the j-th female of room r, at r x pairs + j: which male of her room, 0 to pairs - 1
 */
export function nextBroods(broods: Broods, breeders: Breeders, mates: Int32Array): Broods {
	const { rooms, pairs } = broods;
	const count = rooms * pairs;
	const sires = new Int32Array(count);
	const dams = new Int32Array(count);
	for (let room = 0; room < rooms; room++) {
		for (let j = 0; j < pairs; j++) {
			sires[room * pairs + j] = room * 2 * pairs + mates[room * pairs + j]!;
			dams[room * pairs + j] = room * 2 * pairs + pairs + j;
		}
	}
	const between = new Float64Array(count * count);
	const inbreeding = new Float64Array(count);
	const of = (one: number, other: number) => kinshipOfSlots(broods, breeders, one, other);
	for (let a = 0; a < count; a++) {
		inbreeding[a] = of(sires[a]!, dams[a]!);
		for (let b = 0; b <= a; b++) {
			const kinship =
				(of(sires[a]!, sires[b]!) +
					of(sires[a]!, dams[b]!) +
					of(dams[a]!, sires[b]!) +
					of(dams[a]!, dams[b]!)) /
				4;
			between[a * count + b] = kinship;
			between[b * count + a] = kinship;
		}
	}
	return { rooms, pairs, between, inbreeding };
}

/** Mean inbreeding of the breeders. */
export function meanInbreeding(broods: Broods, breeders: Breeders): number {
	let sum = 0;
	for (const brood of breeders) sum += broods.inbreeding[brood]!;
	return sum / breeders.length;
}

/** Mean kinship of all breeders of all rooms, a fish with itself included. */
export function meanKinshipOfAll(broods: Broods, breeders: Breeders): number {
	let sum = 0;
	for (let i = 0; i < breeders.length; i++) {
		sum += kinshipOfSlots(broods, breeders, i, i);
		for (let j = 0; j < i; j++) sum += 2 * kinshipOfSlots(broods, breeders, i, j);
	}
	return sum / breeders.length ** 2;
}

/** Mean kinship of the pairs. */
export function kinshipOfPairs(broods: Broods, breeders: Breeders, mates: Int32Array): number {
	const { pairs } = broods;
	let sum = 0;
	for (let j = 0; j < mates.length; j++) {
		const first = Math.floor(j / pairs) * 2 * pairs;
		sum += kinshipOfSlots(broods, breeders, first + mates[j]!, first + pairs + (j % pairs));
	}
	return sum / mates.length;
}
