import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fishText } from '#records/fishCount.ts';
import { countAloud } from '#ui/shared/countAloud.ts';
import { readCount } from '#ui/shared/readCount.ts';

const seed = 236;
const number = fc.integer({ min: 0, max: 99_999 });
const anyFish = fc.record({ males: number, females: number, unsexed: number });

describe('counts as typed', () => {
	it(`readCount reads back what fishText shows (seed ${seed})`, () => {
		fc.assert(
			fc.property(anyFish, (fish) => {
				expect(readCount(fishText(fish))).toEqual(fish);
			}),
			{ seed }
		);
	});

	it(`readCount reads the keepers' notation (seed ${seed})`, () => {
		fc.assert(
			fc.property(anyFish, (fish) => {
				expect(readCount(`${fish.males}.${fish.females}.${fish.unsexed}`)).toEqual(fish);
				expect(readCount(` ${fish.females}F, ${fish.males}m ${fish.unsexed}? `)).toEqual(fish);
			}),
			{ seed }
		);
	});

	// Common practice, no source: "1.2" is one male, two females; a bare number has no sexes.
	it.each([
		['1.2', { males: 1, females: 2, unsexed: 0 }],
		['1.2.6', { males: 1, females: 2, unsexed: 6 }],
		['6', { males: 0, females: 0, unsexed: 6 }],
		['3f', { males: 0, females: 3, unsexed: 0 }]
	])('readCount(%j)', (typed, fish) => expect(readCount(typed)).toEqual(fish));

	it.each(['', 'a few', '2m 3m', '-2', '1.2.3.4', '1e3', '2.', '123456', '2m3f'])(
		'readCount(%j) is null',
		(typed) => expect(readCount(typed)).toBeNull()
	);

	it('countAloud says one male, and no fish', () => {
		expect(countAloud({ males: 1, females: 1, unsexed: 0 })).toBe('1 male, 1 female');
		expect(countAloud({ males: 0, females: 0, unsexed: 0 })).toBe('no fish');
	});
});
