import { expect, test } from 'vitest';
import { randomFrom } from '#genetics/drop/randomFrom.ts';
import { ring } from '#planning/ring.ts';

function costs(rooms: number, seed: number): (from: number, to: number) => number {
	const random = randomFrom(seed);
	const table = Array.from({ length: rooms * rooms }, () => random());
	return (from, to) => table[from * rooms + to]!;
}
const sum = (order: readonly number[], cost: (from: number, to: number) => number) =>
	order.reduce((all, from, i) => all + cost(from, order[(i + 1) % order.length]!), 0);

/** Every order that begins with room 0. */
function everyOrder(rooms: number): number[][] {
	const orders = (left: number[]): number[][] =>
		left.length === 0
			? [[]]
			: left.flatMap((one) => orders(left.filter((other) => other !== one)).map((rest) => [one, ...rest]));
	return orders(Array.from({ length: rooms - 1 }, (_, i) => i + 1)).map((rest) => [0, ...rest]);
}

test('up to seven rooms no order is better: all orders weighed, seeds 1 to 20', () => {
	for (let seed = 1; seed <= 20; seed++)
		for (let rooms = 2; rooms <= 7; rooms++) {
			const cost = costs(rooms, seed);
			const found = ring(rooms, cost);
			expect(found.isBest).toBe(true);
			expect(found.order.toSorted()).toEqual(Array.from({ length: rooms }, (_, i) => i));
			expect(found.cost).toBeCloseTo(Math.min(...everyOrder(rooms).map((order) => sum(order, cost))), 12);
			expect(sum(found.order, cost)).toBeCloseTo(found.cost, 12);
		}
});

test('more rooms: every room once, far better than by chance, and it does not claim to be the best', () => {
	const cost = costs(20, 5);
	const found = ring(20, cost);
	expect(found.isBest).toBe(false);
	expect(found.order.toSorted((a, b) => a - b)).toEqual(Array.from({ length: 20 }, (_, i) => i));
	// By chance each of 20 steps costs a half.
	expect(found.cost).toBeLessThan(5);
	expect(ring(20, cost)).toEqual(found);
});

test('one room is no ring', () => {
	expect(() => ring(1, () => 0)).toThrow(RangeError);
});
