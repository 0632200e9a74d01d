/** Rounds of swaps that fill rooms again: beside closed forms, another chain, and a slow way over all sets of rooms. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { chanceOfLoss } from '#planning/chanceOfLoss.ts';
import { lossByRounds, type RoomsOfRounds } from '#planning/loss/lossByRounds.ts';

const apart = (rooms: number) => Array.from({ length: rooms }, (_, i) => `house ${i}`);
const nobody = (rooms: number) => Array.from({ length: rooms }, () => []);
const ring = (rooms: number) => Array.from({ length: rooms }, (_, i) => [(i + rooms - 1) % rooms]);
const anybody = (rooms: number) =>
	Array.from({ length: rooms }, (_, i) => Array.from({ length: rooms }, (_, j) => j).filter((j) => j !== i));
const line = (
	rooms: number,
	givers: (rooms: number) => number[][],
	given: Partial<RoomsOfRounds> = {}
): RoomsOfRounds => ({
	...{ houses: apart(rooms), givers: givers(rooms), lossPerYear: 0.2, correlation: 0, filled: 1 },
	...given
});

describe('closed forms', () => {
	test.each([5, 8, 10, 12, 16])('nobody fills, a round every %i months: (1 - (1-p)^T)^K', (months) => {
		for (const [year, chance] of lossByRounds(line(3, nobody), months, 8).entries())
			expect(chance).toBeCloseTo((1 - 0.8 ** (year + 1)) ** 3, 12);
	});

	test.each([
		[1, 0.67, 0.005],
		[2, 0.18, 0.005],
		[3, 0.039, 0.0005],
		[5, 0.002, 0.0005]
	])('any fills all, %i rooms, five years: 1 - (1 - p^K)^5', (rooms, rounded, rounding) => {
		// The rounded values: own arithmetic for this project, made by hand.
		const lost = lossByRounds(line(rooms, anybody), 12, 5)[4]!;
		expect(lost).toBeCloseTo(1 - (1 - 0.2 ** rooms) ** 5, 12);
		expect(Math.abs(lost - rounded)).toBeLessThanOrEqual(rounding);
	});

	test('one house: all its rooms are one, whoever fills whom', () => {
		for (const givers of [nobody, ring, anybody])
			expect(lossByRounds(line(4, givers, { houses: apart(1).concat(Array(3).fill('house 0')) }), 12, 3)[2])
				// 0.8 of the years the house keeps it.
				.toBeCloseTo(1 - 0.8 ** 3, 12);
	});

	test('houses that fail together: the first year is a beta-binomial (Skellam 1948, from memory)', () => {
		const s = 0.1 / 0.9;
		const together = (0.2 * (0.2 + s) * (0.2 + 2 * s)) / ((1 + s) * (1 + 2 * s));
		for (const givers of [nobody, ring, anybody])
			expect(lossByRounds(line(3, givers, { correlation: 0.1 }), 12, 1)[0]).toBeCloseTo(together, 12);
	});
});

test('nobody fills, in part together: the chain of counts, which is another program, seed 411', () => {
	fc.assert(
		fc.property(
			fc.integer({ min: 1, max: 6 }),
			fc.double({ min: 0, max: 1, noNaN: true }),
			fc.double({ min: 0, max: 0.9, noNaN: true }),
			(rooms, lossPerYear, correlation) => {
				const counts = chanceOfLoss(
					{ ...{ holders: rooms, maxHolders: rooms, restockPerHolder: 0 }, lossPerYear, correlation },
					6
				);
				const sets = lossByRounds(line(rooms, nobody, { lossPerYear, correlation }), 12, 6);
				for (const [year, chance] of sets.entries()) expect(chance).toBeCloseTo(counts[year]!, 10);
			}
		),
		{ seed: 411, numRuns: 60 }
	);
});

/** The slow way: every pattern of failing houses and of bags that come, by its own chance, from every set of rooms. */
function slowly({ houses, givers, lossPerYear: p, filled }: RoomsOfRounds, years: number): number[] {
	const names = [...new Set(houses)];
	let now = new Map<string, number>([[houses.map(() => '1').join(''), 1]]);
	return Array.from({ length: years }, () => {
		const next = new Map<string, number>();
		for (const [rooms, mass] of now)
			for (let fails = 0; fails < 2 ** names.length; fails++)
				for (let comes = 0; comes < 2 ** houses.length; comes++) {
					const lost = (room: number) => (fails >> names.indexOf(houses[room]!)) & 1;
					const left = [...rooms].map((has, room) => (has === '1' && !lost(room) ? 1 : 0));
					let chance = mass;
					for (const [i] of names.entries()) chance *= (fails >> i) & 1 ? p : 1 - p;
					const after = left.map((has, room) => {
						const bag = (comes >> room) & 1;
						chance *= bag ? filled : 1 - filled;
						return has || (bag && givers[room]!.some((from) => left[from])) ? '1' : '0';
					});
					next.set(after.join(''), (next.get(after.join('')) ?? 0) + chance);
				}
		now = next;
		return now.get(houses.map(() => '0').join('')) ?? 0;
	});
}

test.each([
	['a ring of four', line(4, ring)],
	['a ring of four where one bag in four does not come', line(4, ring, { filled: 0.75 })],
	['two rooms of one house in a ring of four', line(4, ring, { houses: ['a', 'b', 'a', 'c'], filled: 0.5 })],
	['a ring of three beside a room that stays out', line(4, () => [[2], [0], [1], []])],
	['any of three fills, half of the bags come', line(3, anybody, { lossPerYear: 0.4, filled: 0.5 })]
])('%s: as the slow way says', (_, rooms) => {
	const slow = slowly(rooms, 5);
	for (const [year, chance] of lossByRounds(rooms, 12, 5).entries())
		expect(chance).toBeCloseTo(slow[year]!, 12);
});

test('nobody is worse than a ring, a ring is worse than any that has it; more often rounds help, seed 412', () => {
	fc.assert(
		fc.property(
			fc.integer({ min: 3, max: 6 }),
			fc.double({ min: 0.01, max: 0.6, noNaN: true }),
			fc.double({ min: 0, max: 0.5, noNaN: true }),
			fc.double({ min: 0, max: 1, noNaN: true }),
			(rooms, lossPerYear, correlation, filled) => {
				const at = (givers: (rooms: number) => number[][]) =>
					lossByRounds(line(rooms, givers, { lossPerYear, correlation, filled }), 10, 10)[9]!;
				expect(at(ring)).toBeLessThanOrEqual(at(nobody) + 1e-12);
				expect(at(anybody)).toBeLessThanOrEqual(at(ring) + 1e-12);
			}
		),
		{ seed: 412, numRuns: 40 }
	);
	const every = (months: number) => lossByRounds(line(5, ring), months, 10)[9]!;
	expect(every(6)).toBeLessThan(every(12));
});

test.each([
	[line(13, nobody), 12, 1],
	[line(2, () => [[2], [0]]), 12, 1],
	[line(2, ring, { correlation: 1 }), 12, 1],
	[line(2, ring, { filled: 1.1 }), 12, 1],
	[line(2, ring), 0, 1],
	[line(2, ring), 12, 0.5]
])('%j, a round every %d months, %d years is refused', (rooms, months, years) => {
	expect(() => lossByRounds(rooms, months, years)).toThrow(RangeError);
});
