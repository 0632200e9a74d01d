/**
 * Effective size from the rate: how many breeders drift as fast as inbreeding really went up?
 *
 * Ne = 1 / (2 dF). A definition; what the rate owes to chance or to choice of mates it does not tell.
 * Source: Wright (1931), Genetics 16:97; Falconer & Mackay (1996), chapter 4 (from memory).
 * Cost: O(1).
 *
 * @param rate dF of one generation, above 0: see `rateOfInbreeding`
 * @returns a number of breeders
 * @throws RangeError when the rate is not above 0: inbreeding that does not go up has no such number
 * @example
 * effectiveSizeFromRate(0.05) // => 10
 */
export function effectiveSizeFromRate(rate: number): number {
	if (!(rate > 0 && rate <= 1))
		throw new RangeError(`effectiveSizeFromRate requires a rate above 0 and at most 1, got ${rate}`);
	return 1 / (2 * rate);
}
