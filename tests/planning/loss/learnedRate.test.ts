import { describe, expect, test } from 'vitest';
import { learnedRate } from '#planning/loss/learnedRate.ts';

describe('a rate learned from few events', () => {
	// Brown, Cai & DasGupta 2001, Statistical Science 16:101, table 5: Jeffreys limits for n = 10 (from memory), recomputed.
	test.each([
		[1, 10, 0.011, 0.381],
		[3, 10, 0.093, 0.606],
		[5, 10, 0.224, 0.776]
	])('%i in %i years: %d to %d', (events, years, low, high) => {
		const rate = learnedRate(events, years);
		expect(rate.low).toBeCloseTo(low, 2);
		expect(rate.high).toBeCloseTo(high, 2);
	});

	test('none in n years: at most 3 / n (Hanley & Lippman-Hand 1983)', () => {
		expect(learnedRate(0, 30).mostIfNone).toBeCloseTo(0.1, 12);
		expect(learnedRate(0, 2).mostIfNone).toBe(1);
		expect(learnedRate(0, 30).low).toBe(0);
		expect(learnedRate(1, 30).mostIfNone).toBeNull();
	});

	test('the quantiles of Beta(1/2, 1/2) are those of the arcsine law: sin squared of a quarter turn', () => {
		for (const share of [0.05, 0.3, 0.5, 0.9])
			expect(learnedRate(0, 0).quantile(share)).toBeCloseTo(Math.sin((share * Math.PI) / 2) ** 2, 9);
	});

	test('more years narrow it, and the expected lies between its ends', () => {
		const wide = learnedRate(2, 10);
		const narrow = learnedRate(20, 100);
		expect(narrow.high - narrow.low).toBeLessThan(wide.high - wide.low);
		for (const { low, expected, high } of [wide, narrow, learnedRate(0, 3), learnedRate(4, 4)]) {
			expect(low).toBeLessThanOrEqual(expected);
			expect(expected).toBeLessThanOrEqual(high);
		}
	});

	test.each([
		[-1, 3],
		[0.5, 3],
		[1, Number.NaN]
	])('%d events in %d years are refused', (events, years) => {
		expect(() => learnedRate(events, years)).toThrow(RangeError);
	});
});
