import { expect, test } from 'vitest';
import { learnedRate } from '#planning/loss/learnedRate.ts';
import { oneMoreRoom } from '#planning/loss/oneMoreRoom.ts';

const never = { expected: 0, quantile: () => 0 };
const three = { holders: 3, maxHolders: 3, correlation: 0 };

test('without filling again it leaves 1 - (1-p)^T of the chance, at the rates between which p lies', () => {
	const lost = learnedRate(3, 16.5);
	const { expected, low, high } = oneMoreRoom(three, { lost, refilled: never }, 5);
	const left = (p: number) => 1 - (1 - p) ** 5;
	expect(expected).toBeCloseTo(left(lost.expected), 12);
	// The first and the last of 16 evenly spaced quantiles.
	expect(low).toBeCloseTo(left(lost.quantile(1 / 32)), 12);
	expect(high).toBeCloseTo(left(lost.quantile(31 / 32)), 12);
});

test('halved where a room loses it within the time as often as not', () => {
	const p = 1 - 0.5 ** (1 / 10);
	const sure = { expected: p, quantile: () => p };
	expect(oneMoreRoom(three, { lost: sure, refilled: never }, 10).expected).toBeCloseTo(0.5, 12);
});

test('where nothing is ever lost one more room changes nothing', () => {
	expect(oneMoreRoom(three, { lost: never, refilled: never }, 10)).toEqual({ expected: 1, low: 1, high: 1 });
});
