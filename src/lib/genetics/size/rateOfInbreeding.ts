/**
 * Rate of inbreeding: by which share of what was left did inbreeding go up in one generation?
 *
 * dF = (F_t - F_before) / (1 - F_before); over several generations the rate of each, were they alike:
 * 1 - ((1 - F_t) / (1 - F_before))^(1/generations). Negative when mates were less related than before. Exact.
 * Source: Wright (1931), Genetics 16:97; Falconer & Mackay (1996), chapter 4 (from memory).
 * Cost: O(1).
 *
 * @param before mean inbreeding, or mean kinship, at the beginning; below 1
 * @param after the same at the end; at most 1
 * @param generations how many lie between, above 0; 1 if not given
 * @returns the rate in one generation, at most 1
 * @throws RangeError when a number is out of its range
 * @example
 * rateOfInbreeding(0.2, 0.4) // => 0.25
 */
export function rateOfInbreeding(before: number, after: number, generations = 1): number {
	if (!(before < 1 && after <= 1 && generations > 0))
		throw new RangeError(
			`rateOfInbreeding requires inbreeding below 1 and generations above 0, got ${before}, ${after} and ${generations}`
		);
	if (generations === 1) return (after - before) / (1 - before);
	return 1 - ((1 - after) / (1 - before)) ** (1 / generations);
}
