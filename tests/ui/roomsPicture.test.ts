import { describe, expect, it } from 'vitest';
import { roomsPicture } from '#ui/plans/roomsPicture.ts';

const room = (id: string) => ({ id, name: `${id} room` });
const rooms = ['a', 'b', 'c', 'd', 'e', 'f'].map(room);
const bag = (way: string) => ({ from: way[0]!, to: way[1]! });
const far = (one: readonly [number, number], other: readonly [number, number]) =>
	Math.hypot(one[0] - other[0], one[1] - other[1]);

describe('the rooms and the bags between them', () => {
	it('draws the rooms that take part, each once, on one circle within the picture', () => {
		const picture = roomsPicture(rooms, [bag('ac'), bag('ca'), bag('cf')], 400);
		expect(picture.rooms.map(({ id }) => id).sort()).toEqual(['a', 'c', 'f']);
		const middle = [picture.width / 2, picture.height / 2] as const;
		const [radius, ...others] = picture.rooms.map(({ x, y }) => far([x, y], middle));
		for (const other of others) expect(other).toBeCloseTo(radius!, 6);
		for (const { x, y } of picture.rooms) {
			expect(x > 0 && x < picture.width).toBe(true);
			expect(y > 0 && y < picture.height).toBe(true);
		}
	});

	it('puts rooms that swap side by side', () => {
		const picture = roomsPicture(rooms, ['ad', 'da', 'be', 'eb', 'cf', 'fc'].map(bag), 400);
		const order = picture.rooms.map(({ id }) => id);
		for (const [one, other] of ['ad', 'be', 'cf'].map((pair) => [pair[0]!, pair[1]!] as const)) {
			const apart = Math.abs(order.indexOf(one) - order.indexOf(other));
			expect(Math.min(apart, order.length - apart)).toBe(1);
		}
	});

	it('numbers the bags as the list does, and no number lies on another', () => {
		const picture = roomsPicture(rooms, ['ab', 'ba', 'ab', 'cd'].map(bag), 400);
		expect(picture.bags.map(({ bag: place }) => place)).toEqual([0, 1, 2, 3]);
		picture.bags.forEach((one, i) => {
			for (const other of picture.bags.slice(i + 1)) expect(far(one.at, other.at)).toBeGreaterThan(22);
		});
		expect(new Set(picture.bags.map(({ path }) => path)).size).toBe(4);
	});

	it('leaves out an arrow that has no two rooms, and keeps the numbers of the others', () => {
		const picture = roomsPicture(rooms, ['aa', 'ax', 'ab'].map(bag), 400);
		expect(picture.bags.map(({ bag: place }) => place)).toEqual([2]);
	});

	it('says a long name in at most three short lines', () => {
		const names = [
			{ id: 'a', name: 'The Old Harbourmaster’s Fish Room by the Sluice' },
			{ id: 'b', name: 'Loft' }
		];
		const picture = roomsPicture(names, [bag('ab')], 400);
		const lines = picture.rooms.find(({ id }) => id === 'a')!.lines;
		expect(lines.length).toBe(3);
		for (const line of lines) expect(line.length).toBeLessThanOrEqual(15);
		expect(lines.at(-1)).toMatch(/…$/);
		expect(picture.rooms.find(({ id }) => id === 'b')!.lines).toEqual(['Loft']);
	});

	it('without a bag there is nothing to draw', () => {
		expect(roomsPicture(rooms, [], 400)).toMatchObject({ rooms: [], bags: [] });
	});
});
