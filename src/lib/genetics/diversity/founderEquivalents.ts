/**
 * Founder equivalents: how many founders with equal shares would be as many as these with their unequal ones?
 *
 * fe = 1 / sum of p_f². It counts only how evenly founders contributed, not what chance lost on the way.
 * Source: Lacy (1989), Zoo Biology 8:111 (formula read in a page that quotes it).
 * Cost: O(founders).
 *
 * @param shares of all founders, unknown parents among them; from 0 to 1, sum 1: see `founderContributions`
 * @returns a number of founders, at least 1
 * @throws RangeError when a share is negative or they do not sum to 1
 * @example
 * founderEquivalents([0.5, 0.25, 0.25]) // => 1 / 0.375
 */
export function founderEquivalents(shares: Iterable<number>): number {
	let sum = 0;
	let squares = 0;
	for (const share of shares) {
		if (!(share >= 0)) throw new RangeError(`founderEquivalents requires shares of 0 or more, got ${share}`);
		sum += share;
		squares += share * share;
	}
	// Sums of hundreds of thousands of shares lose no more than this.
	if (!(Math.abs(sum - 1) <= 1e-6))
		throw new RangeError(`founderEquivalents requires shares that sum to 1, got ${sum}`);
	return 1 / squares;
}
