/**
 * Size to keep diversity: how many breeders are needed to keep this share of the diversity for so many years?
 *
 * Ne = 1 / (2 (1 - share^(L/Y))), from (1 - 1/(2 Ne))^(Y/L) = share. Exact for an ideal population. The usual goal,
 * 90 % for 200 years, was set for zoos and is often shortened to 100 years; a club chooses its own.
 * Source: Soulé, Gilpin, Conway & Foose (1986), Zoo Biology 5:101 (formula from memory).
 * Cost: O(1).
 *
 * @param share of the diversity that shall be left, above 0 and below 1
 * @param years Y, above 0
 * @param generationYears L, generation interval in years, above 0
 * @returns Ne, a number of breeders
 * @throws RangeError when a number is out of its range
 * @example
 * sizeToKeepDiversity(0.9, 100, 1).toFixed(2) // => '474.81'
 */
export function sizeToKeepDiversity(share: number, years: number, generationYears: number): number {
	if (!(share > 0 && share < 1 && years > 0 && generationYears > 0))
		throw new RangeError(
			`sizeToKeepDiversity requires a share between 0 and 1 and years above 0, got ${share}, ${years} and ${generationYears}`
		);
	return 1 / (2 * (1 - share ** (generationYears / years)));
}
