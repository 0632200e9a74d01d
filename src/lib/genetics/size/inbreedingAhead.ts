/**
 * Inbreeding ahead: how inbred will fish be on average after so many generations of so many breeders?
 *
 * F_t = 1 - (1 - F_0) (1 - 1/(2 Ne))^t. Exact for an ideal population of steady size; for real rooms run the recursion
 * of groups forward instead.
 * Source: Wright (1931), Genetics 16:97; Falconer & Mackay (1996), chapter 3 (from memory).
 * Cost: O(1).
 *
 * @param size Ne, at least 1/2
 * @param generations t, 0 or more: years / generation interval
 * @param now F_0, mean inbreeding now; 0 if not given
 * @returns 0 to 1
 * @throws RangeError when a number is out of its range
 * @example
 * inbreedingAhead(10, 1).toFixed(12) // => '0.050000000000'
 */
export function inbreedingAhead(size: number, generations: number, now = 0): number {
	if (!(size >= 0.5 && generations >= 0 && now >= 0 && now <= 1))
		throw new RangeError(
			`inbreedingAhead requires a size of 1/2 or more, generations of 0 or more and inbreeding from 0 to 1, got ${size}, ${generations} and ${now}`
		);
	return 1 - (1 - now) * (1 - 1 / (2 * size)) ** generations;
}
