import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bagNumberOf } from '#handover/bagNumberOf.ts';
import {
	blocksWanted,
	noNumbers,
	numbersLeft,
	takeNumber,
	withBlocks,
	withUsed
} from '#handover/numberBlocks.ts';

const block = (first: number) => ({ first, last: first + 49 });

describe('number blocks', () => {
	it('wants three blocks at first, then two untouched behind the one in use', () => {
		expect(blocksWanted(noNumbers)).toBe(3);
		let held = withBlocks(noNumbers, [block(1), block(101), block(201)]);
		expect(blocksWanted(held)).toBe(0);
		held = takeNumber(held)!.held;
		expect(blocksWanted(held)).toBe(0);
		for (let i = 0; i < 49; i++) held = takeNumber(held)!.held;
		expect(blocksWanted(held)).toBe(1);
		expect(numbersLeft(held)).toBe(100);
	});

	it('gives nothing when nothing is left', () => {
		expect(takeNumber(noNumbers)).toBeNull();
		let held = withBlocks(noNumbers, [{ first: 7, last: 7 }]);
		const taken = takeNumber(held)!;
		expect(taken.number).toBe(bagNumberOf(7));
		held = taken.held;
		expect(takeNumber(held)).toBeNull();
	});

	it('an answer that comes twice changes nothing', () => {
		const once = takeNumber(withBlocks(noNumbers, [block(1)]))!.held;
		expect(withBlocks(once, [block(1)])).toEqual(once);
	});

	it('never gives a number twice, whatever is taken, used from a printed label, or given (seed 417)', () => {
		const step = fc.oneof(
			fc.constant({ do: 'take' as const }),
			fc.record({ do: fc.constant('used' as const), count: fc.integer({ min: 1, max: 50 }) }),
			fc.record({
				do: fc.constant('given' as const),
				first: fc.integer({ min: 1, max: 7 }).map((n) => n * 50 + 1)
			})
		);
		fc.assert(
			fc.property(fc.array(step, { maxLength: 200 }), (steps) => {
				let held = withBlocks(noNumbers, [block(1)]);
				const seen = new Set<string>();
				for (const one of steps) {
					if (one.do === 'given') held = withBlocks(held, [block(one.first)]);
					else if (one.do === 'used') {
						held = withUsed(held, one.count);
						seen.add(bagNumberOf(one.count));
					} else {
						const taken = takeNumber(held);
						if (!taken) continue;
						expect(seen.has(taken.number)).toBe(false);
						seen.add(taken.number);
						held = taken.held;
					}
				}
			}),
			{ seed: 417, numRuns: 300 }
		);
	});
});
