/** A look ahead beside formulas that others worked out: no exchange, brothers with sisters, and the ring. */
import { describe, expect, test } from 'vitest';
import { groupKinship } from '#genetics/groups/groupKinship.ts';
import { simulateAhead } from '#planning/ahead/simulateAhead.ts';
import type { StrategyAhead } from '#planning/ahead/strategyAhead.ts';

function play(
	rooms: number,
	[fathers, mothers]: readonly [number, number],
	exchange: StrategyAhead['exchange'],
	by: {
		readonly generations: number;
		readonly futures: number;
		readonly breeders?: StrategyAhead['breeders'];
	}
) {
	const names = Array.from({ length: rooms }, (_, i) => `room ${i}`);
	const table = groupKinship(
		names.flatMap((room) => [
			{ kind: 'founders' as const, unit: `${room} m`, count: fathers },
			{ kind: 'founders' as const, unit: `${room} f`, count: mothers }
		])
	);
	const line = {
		table,
		rooms: names.map((room) => ({
			...{ room, house: room, takesPart: true, fathers, mothers },
			...{ males: [`${room} m`], females: [`${room} f`] }
		})),
		losses: { lost: 0, refilled: 0 }
	};
	const { breeders = 'random', ...asked } = by;
	const strategy: StrategyAhead = { exchange, breeders, malesMoved: 1, every: 1 };
	return simulateAhead(line, [strategy], { ...asked, seed: 31 })[0]!;
}

describe('no exchange', () => {
	test.each([
		[2, 2],
		[1, 3],
		[4, 4]
	] as const)('%i males and %i females: every generation as in Wright 1931, seed 31', (fathers, mothers) => {
		// Wright 1931, Genetics 16:97: P'' = (1 - 1/Ne) P' + P / (2 Ne) for what is left P = 1 - F, 1/Ne = 1/4m + 1/4f.
		const perNe = 1 / (4 * fathers) + 1 / (4 * mothers);
		const course = play(6, [fathers, mothers], 'none', { generations: 12, futures: 1500 });
		const left = [1, 1];
		for (let t = 2; t <= 12; t++) left.push((1 - perNe) * left[t - 1]! + (perNe / 2) * left[t - 2]!);
		for (const [t, { inbreeding }] of course.entries())
			expect(Math.abs(inbreeding!.mean - (1 - left[t]!))).toBeLessThan(4 * inbreeding!.standardError + 1e-12);
	});

	test.each(['random', 'even', 'together'] as const)(
		'brothers with sisters, breeders %s: nothing is left to choose',
		(breeders) => {
			// Wright 1921, Genetics 6:124 (from memory): F'' = (1 + 2 F' + F) / 4, so 1/4, 3/8, 1/2, 19/32 ...
			const course = play(5, [1, 1], 'none', { generations: 8, futures: 2, breeders });
			const F = [0, 0];
			for (let t = 2; t <= 9; t++) F.push((1 + 2 * F[t - 1]! + F[t - 2]!) / 4);
			expect(F.slice(2, 6)).toEqual([1 / 4, 3 / 8, 1 / 2, 19 / 32]);
			for (const [t, { inbreeding, geneDiversity }] of course.entries()) {
				expect(inbreeding!.mean).toBeCloseTo(F[t]!, 12);
				// Of five unrelated rooms, two draws meet in one room every fifth time: half of these in one fish.
				const inRoom = (1 + F[t]!) / 4 + F[t + 1]! / 2;
				expect(geneDiversity!.mean).toBeCloseTo(1 - inRoom / 5, 12);
			}
		}
	);
});

describe('a ring of pairs, all males moving on', () => {
	/** The rate at last, when it no longer changes. */
	const rate = (pairs: number, generations: number) => {
		const course = play(pairs, [1, 1], 'ring', { generations, futures: 1 });
		const F = (t: number) => course[t]!.inbreeding!.mean;
		return (F(generations) - F(generations - 1)) / (1 - F(generations - 1));
	};

	test('its rate comes to that of Kimura & Crow 1963 the more rooms there are: pi squared / (N + 12) squared', () => {
		// Genetical Research 4:399, abstract: for circular pair mating of N fish, as N grows.
		const off = [
			[12, 300],
			[24, 900],
			[48, 3000]
		].map(([pairs, generations]) => rate(pairs!, generations!) / (Math.PI ** 2 / (2 * pairs! + 12) ** 2) - 1);
		for (const [i, one] of off.entries()) {
			expect(Math.abs(one)).toBeLessThan([0.1, 0.04, 0.02][i]!);
			if (i > 0) expect(Math.abs(one)).toBeLessThan(Math.abs(off[i - 1]!));
		}
	});

	test('at last it is slower than avoiding kin as long as can be, 1 / 4N, and faster at first', () => {
		// Kimura & Crow 1963: the ring has the higher inbreeding early, and the lower rate late.
		const pairs = 16;
		expect(rate(pairs, 500)).toBeLessThan(1 / (4 * 2 * pairs));
		const ring = play(pairs, [1, 1], 'ring', { generations: 5, futures: 1 }).at(-1)!.inbreeding!.mean;
		const turning = play(pairs, [1, 1], 'rotating', { generations: 5, futures: 1 }).at(-1)!.inbreeding!.mean;
		expect(turning).toBeLessThan(ring / 2);
		expect(ring).toBeGreaterThan(0.05);
	});
});
