import { expect, test } from 'vitest';
import { learnedRate } from '#planning/loss/learnedRate.ts';
import { lossOutlook } from '#planning/loss/lossOutlook.ts';

const never = { expected: 0, quantile: () => 0 };

test('as expected it is the closed form (1 - (1 - p)^T)^K, and lies within its range', () => {
	const lost = learnedRate(3, 16.5);
	expect(lost.expected).toBeCloseTo(0.2, 12);
	const { expected, low, high } = lossOutlook(
		{ holders: 3, maxHolders: 3, correlation: 0 },
		{ lost, refilled: never },
		20
	);
	for (let year = 0; year < 20; year++) {
		expect(expected[year]).toBeCloseTo((1 - 0.8 ** (year + 1)) ** 3, 12);
		expect(low[year]).toBeLessThanOrEqual(expected[year]!);
		expect(high[year]).toBeGreaterThanOrEqual(expected[year]!);
	}
	// Own value by the closed form and by a chain in another language: K = 3, p = .2, T = 5.
	expect(expected[4]).toBeCloseTo(0.303898, 6);
});

test('one room in one year: the range is that of the rate, to a step of its quantiles', () => {
	const lost = learnedRate(4, 40);
	const one = lossOutlook({ holders: 1, maxHolders: 1, correlation: 0 }, { lost, refilled: never }, 1);
	expect(one.low[0]).toBeGreaterThanOrEqual(lost.low);
	expect(one.high[0]).toBeLessThanOrEqual(lost.high);
	expect(one.high[0]! - one.low[0]!).toBeGreaterThan(0.7 * (lost.high - lost.low));
});

test('rooms that fail together are in more danger; a room more and filling again help', () => {
	const lost = learnedRate(3, 16.5);
	const at10 = (holders: number, correlation: number, refilled: number) =>
		lossOutlook(
			{ holders, maxHolders: holders, correlation },
			{ lost, refilled: { expected: refilled, quantile: () => refilled } },
			10
		).expected[9]!;
	expect(at10(4, 0.1, 0)).toBeGreaterThan(at10(4, 0, 0));
	expect(at10(5, 0, 0)).toBeLessThan(at10(4, 0, 0));
	expect(at10(4, 0, 0.3)).toBeLessThan(at10(4, 0, 0));
});
