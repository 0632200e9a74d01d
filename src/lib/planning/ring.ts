/** A standing ring of rooms. */
export interface Ring {
	/** Rooms by their places: each gives to the next, the last to the first. Begins with place 0. */
	readonly order: readonly number[];
	/** What is made least: kinship of each room with the one that it gets from, and the way between them. */
	readonly cost: number;
	/** No order is better; otherwise it is a good one, found by search. */
	readonly isBest: boolean;
}

/** Up to so many rooms all orders are weighed against each other. */
const mostExact = 12;

/**
 * Ring: in which order should rooms stand so that the first rounds bring the least related fish?
 *
 * Each room always gets from the room before it. The order with the least sum of costs is exact up to 12 rooms, by the
 * best way through every set of rooms; for more, nearest neighbours from every start, then pieces moved and turned.
 * Source: Held & Karp 1962, Journal of the SIAM 10:196; ring mating: Kimura & Crow 1963, Genetical Research 4:399.
 * Cost: rooms squared x 2^rooms; beyond 12 rooms^4 or so.
 *
 * @param rooms how many, 2 or more
 * @param cost of fish from one room going to another, by their places; finite
 * @returns the order, the same whenever the costs are
 * @throws RangeError with fewer than two rooms
 * @example
 * ring(3, (from, to) => (to === (from + 1) % 3 ? 0 : 1)).order // => [0, 1, 2]
 */
export function ring(rooms: number, cost: (from: number, to: number) => number): Ring {
	if (!(Number.isSafeInteger(rooms) && rooms >= 2))
		throw new RangeError(`ring requires two rooms or more, got ${rooms}`);
	const order = rooms <= mostExact ? bestWay(rooms, cost) : goodWay(rooms, cost);
	return { order, cost: costOf(order, cost), isBest: rooms <= mostExact };
}

function costOf(order: readonly number[], cost: (from: number, to: number) => number): number {
	return order.reduce((sum, from, i) => sum + cost(from, order[(i + 1) % order.length]!), 0);
}

/** The last room is the one that closes the ring, back to room 0. */
function bestWay(rooms: number, cost: (from: number, to: number) => number): number[] {
	const sets = 1 << rooms;
	const least = new Float64Array(sets * rooms).fill(Infinity);
	const before = new Int8Array(sets * rooms).fill(-1);
	least[rooms] = 0;
	for (let set = 1; set < sets; set += 2)
		for (let last = 0; last < rooms; last++) {
			const here = least[set * rooms + last]!;
			if (here === Infinity) continue;
			for (let next = 1; next < rooms; next++) {
				if (set & (1 << next)) continue;
				const place = (set | (1 << next)) * rooms + next;
				const there = here + cost(last, next);
				if (there < least[place]!) [least[place], before[place]] = [there, last];
			}
		}
	const all = sets - 1;
	let last = 1;
	for (let room = 2; room < rooms; room++)
		if (least[all * rooms + room]! + cost(room, 0) < least[all * rooms + last]! + cost(last, 0)) last = room;
	const order: number[] = [];
	for (let set = all; last >= 0;) {
		order.push(last);
		const previous = before[set * rooms + last]!;
		set &= ~(1 << last);
		last = previous;
	}
	return order.reverse();
}

function goodWay(rooms: number, cost: (from: number, to: number) => number): number[] {
	let best: number[] = [];
	for (let start = 0; start < rooms; start++) {
		const order = [start];
		const left = new Set(Array.from({ length: rooms }, (_, room) => room));
		left.delete(start);
		while (left.size) {
			const from = order.at(-1)!;
			const next = [...left].reduce((a, b) => (cost(from, b) < cost(from, a) ? b : a));
			left.delete(next);
			order.push(next);
		}
		const better = improved(order, cost);
		if (!best.length || costOf(better, cost) < costOf(best, cost) - 1e-12) best = better;
	}
	const zero = best.indexOf(0);
	return [...best.slice(zero), ...best.slice(0, zero)];
}

/** Takes a room out and puts it in elsewhere as long as that helps. */
function improved(order: readonly number[], cost: (from: number, to: number) => number): number[] {
	let now = [...order];
	for (let better = true; better;) {
		better = false;
		for (const room of order) {
			const rest = now.filter((one) => one !== room);
			const places = rest.map((_, i) => [...rest.slice(0, i), room, ...rest.slice(i)]);
			const moved = places.reduce((a, b) => (costOf(b, cost) < costOf(a, cost) ? b : a));
			if (costOf(moved, cost) >= costOf(now, cost) - 1e-12) continue;
			now = moved;
			better = true;
		}
	}
	return now;
}
