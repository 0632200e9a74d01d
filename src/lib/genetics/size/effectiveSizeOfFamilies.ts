/**
 * Effective size of families: what do unequal numbers of young do to drift?
 *
 * Ne = (4 N - 2) / (V + 2), V the variance over parents of the number of their young that become parents, whose mean is
 * 2. All families equal: V = 0 and Ne = 2 N - 1; chance alone: V is about 2 and Ne about N. For a steady number of
 * parents, both sexes taken together.
 * Source: Crow & Kimura (1970), An Introduction to Population Genetics Theory (from memory).
 * Cost: O(1).
 *
 * @param parents N, at least 1
 * @param variance V, 0 or more
 * @returns a number of breeders
 * @throws RangeError when a number is out of its range
 * @example
 * effectiveSizeOfFamilies(20, 0) // => 39
 */
export function effectiveSizeOfFamilies(parents: number, variance: number): number {
	if (!(parents >= 1 && variance >= 0))
		throw new RangeError(
			`effectiveSizeOfFamilies requires parents of 1 or more and a variance of 0 or more, got ${parents} and ${variance}`
		);
	return (4 * parents - 2) / (variance + 2);
}
