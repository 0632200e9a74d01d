import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { chanceOfLoss, type HoldersOfLine } from '#planning/chanceOfLoss.ts';

const line = (given: Partial<HoldersOfLine>): HoldersOfLine => ({
	holders: 3,
	lossPerYear: 0.2,
	restockPerHolder: 0,
	maxHolders: given.holders ?? 3,
	correlation: 0,
	...given
});

describe('a line is lost when every room has lost it', () => {
	// Own values, computed for this project by the closed form and by a chain of 0 to 6 rooms in another language.
	test.each([
		[line({}), 5, 0.303898],
		[line({ holders: 5 }), 5, 0.137366],
		[line({ restockPerHolder: 0.3, maxHolders: 6 }), 5, 0.135296],
		[line({ restockPerHolder: 0.3, maxHolders: 6 }), 20, 0.466328]
	])('%j after %i years: %d', (given, years, value) => {
		expect(chanceOfLoss(given, years).at(-1)).toBeCloseTo(value, 6);
	});

	test('rooms that fail together: the first year is a beta-binomial (Skellam 1948, from memory)', () => {
		// P(all three) = p (p + s) (p + 2s) / ((1 + s) (1 + 2s)), s = rho / (1 - rho).
		const s = 0.1 / 0.9;
		const together = (0.2 * (0.2 + s) * (0.2 + 2 * s)) / ((1 + s) * (1 + 2 * s));
		expect(chanceOfLoss(line({ correlation: 0.1 }), 1)[0]).toBeCloseTo(together, 14);
		expect(together).toBeGreaterThan(0.2 ** 3);
	});

	test('many rooms that fail together: every factor of the beta-binomial by itself (Skellam 1948, from memory)', () => {
		// Written factor by factor, since the products above and below the line are beyond all numbers.
		const s = 0.9 / 0.1;
		let together = 1;
		for (let i = 0; i < 150; i++) together *= (0.3 + i * s) / (1 + i * s);
		expect(chanceOfLoss(line({ holders: 150, lossPerYear: 0.3, correlation: 0.9 }), 1)[0]).toBeCloseTo(
			together,
			12
		);
	});

	test('more rooms than any club has: still the closed form', () => {
		const lost = chanceOfLoss(line({ holders: 1100, lossPerYear: 0.3 }), 30);
		expect(lost.at(-1)).toBeCloseTo((1 - 0.7 ** 30) ** 1100, 12);
	});
});

test('without restocking: (1 - (1 - p)^T)^K, seed 1607', () => {
	fc.assert(
		fc.property(
			fc.integer({ min: 0, max: 12 }),
			fc.double({ min: 0, max: 1, noNaN: true }),
			(holders, lossPerYear) => {
				for (const [i, chance] of chanceOfLoss(line({ holders, lossPerYear }), 8).entries())
					expect(chance).toBeCloseTo((1 - (1 - lossPerYear) ** (i + 1)) ** holders, 12);
			}
		),
		{ seed: 1607 }
	);
});

test.each([
	{ lossPerYear: 1.1 },
	{ correlation: 1 },
	{ holders: 4, maxHolders: 3 },
	{ restockPerHolder: Number.NaN }
])('%j is refused', (given) => {
	expect(() => chanceOfLoss(line(given), 3)).toThrow(RangeError);
});
