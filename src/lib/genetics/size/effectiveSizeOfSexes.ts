/**
 * Effective size of sexes: how many breeders, half of each sex, drift as much as these males and females?
 *
 * Ne = 4 Nm Nf / (Nm + Nf). Exact when every young draws father and mother at random, by itself.
 * Source: Wright (1931), Genetics 16:97.
 * Cost: O(1).
 *
 * @param males breeding males, above 0
 * @param females breeding females, above 0
 * @returns a number of breeders, at most males + females
 * @throws RangeError when a number is not above 0
 * @example
 * effectiveSizeOfSexes(5, 45) // => 18
 */
export function effectiveSizeOfSexes(males: number, females: number): number {
	if (!(males > 0 && females > 0))
		throw new RangeError(`effectiveSizeOfSexes requires numbers above 0, got ${males} and ${females}`);
	return (4 * males * females) / (males + females);
}
