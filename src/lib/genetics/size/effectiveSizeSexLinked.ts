/**
 * Effective size, sex-linked: how many breeders drift as much at a gene on the X, or on the Z?
 *
 * Ne = 9 Ns Nd / (4 Ns + 2 Nd), Ns breeders of the sex with one copy (males for X, females for Z), Nd of the sex with
 * two. Under the same conditions as `effectiveSizeOfSexes`.
 * Source: Wright (1931), Genetics 16:97 (from memory).
 * Cost: O(1).
 *
 * @param withOneCopy breeders of the sex that has one copy, above 0
 * @param withTwoCopies breeders of the sex that has two, above 0
 * @returns a number of breeders
 * @throws RangeError when a number is not above 0
 * @example
 * effectiveSizeSexLinked(5, 10) // => 11.25
 */
export function effectiveSizeSexLinked(withOneCopy: number, withTwoCopies: number): number {
	if (!(withOneCopy > 0 && withTwoCopies > 0))
		throw new RangeError(
			`effectiveSizeSexLinked requires numbers above 0, got ${withOneCopy} and ${withTwoCopies}`
		);
	return (9 * withOneCopy * withTwoCopies) / (4 * withOneCopy + 2 * withTwoCopies);
}
