import type { Range } from './season.ts';

export const nothingRange: Range = { expected: 0, least: 0, greatest: 0 };

/** The sum of ranges, each times its weight of 0 or more: the ends move together, so they hold for any record. */
export function sumOfRanges(parts: readonly (readonly [number, Range])[]): Range {
	let expected = 0;
	let least = 0;
	let greatest = 0;
	for (const [weight, range] of parts) {
		expected += weight * range.expected;
		least += weight * range.least;
		greatest += weight * range.greatest;
	}
	return { expected, least, greatest };
}

/** The one figure that a careful planner counts with. */
export const counted = (range: Range, worstCase: number): number =>
	(1 - worstCase) * range.expected + worstCase * range.greatest;
