/**
 * Diversity ahead: how much gene diversity will be left after so many generations of so many breeders?
 *
 * GD_t = GD_0 (1 - 1/(2 Ne))^t. Exact for an ideal population of steady size; for real rooms run the recursion of
 * groups forward instead.
 * Source: Wright (1931), Genetics 16:97; Crow & Kimura (1970) (from memory).
 * Cost: O(1).
 *
 * @param now GD_0, 0 to 1: see `geneDiversity`
 * @param size Ne, at least 1/2
 * @param generations t, 0 or more: years / generation interval
 * @returns 0 to 1
 * @throws RangeError when a number is out of its range
 * @example
 * diversityAhead(0.8, 4, 2) // => 0.8 * 0.875 ** 2
 */
export function diversityAhead(now: number, size: number, generations: number): number {
	if (!(now >= 0 && now <= 1 && size >= 0.5 && generations >= 0))
		throw new RangeError(
			`diversityAhead requires a diversity from 0 to 1, a size of 1/2 or more and generations of 0 or more, got ${now}, ${size} and ${generations}`
		);
	return now * (1 - 1 / (2 * size)) ** generations;
}
