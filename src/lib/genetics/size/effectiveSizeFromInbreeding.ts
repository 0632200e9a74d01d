/** An effective size with how sure it is; null when inbreeding does not go up, or nothing can be said. */
export interface RealisedSize {
	readonly size: number | null;
	/** From the spread over fish, or pairs; null with fewer than two. Fish share ancestors, so it is on the low side. */
	readonly standardError: number | null;
	/** How many fish, or pairs, could be counted. */
	readonly counted: number;
}

/**
 * Effective size from inbreeding: how many breeders drift as fast as the inbreeding of these fish went up?
 *
 * Of each fish dF = 1 - (1 - F)^(1/(g - 1)), g its equivalent generations; Ne = 1 / (2 mean dF). Fish with g of 1 or
 * less are left out: they could not be inbred. The standard error is 2 Ne² s / sqrt(n), s the spread of dF.
 * Source: Gutiérrez, Cervantes, Molina, Valera & Goyache (2008), Genetics Selection Evolution 40:359, with the
 * exponent g - 1 of Gutiérrez et al. (2009), same journal 41 (from memory).
 * Cost: O(fish).
 *
 * @param F inbreeding of each fish, 0 to 1
 * @param generations equivalent generations of the same fish: see `equivalentGenerations`
 * @returns the size; `size` is null where inbreeding is 0 throughout
 * @throws RangeError when the lengths differ
 * @example
 * effectiveSizeFromInbreeding([0.25, 0.25], [2, 2]) // => { size: 2, standardError: 0, counted: 2 }
 */
export function effectiveSizeFromInbreeding(
	F: ArrayLike<number>,
	generations: ArrayLike<number>
): RealisedSize {
	if (F.length !== generations.length)
		throw new RangeError(
			`effectiveSizeFromInbreeding requires one number of generations for each fish, got ${generations.length} for ${F.length}`
		);
	const rates: number[] = [];
	for (let i = 0; i < F.length; i++)
		if (generations[i]! > 1) rates.push(1 - (1 - F[i]!) ** (1 / (generations[i]! - 1)));
	return sizeFromRates(rates);
}

/** The same from rates of whatever was counted. */
export function sizeFromRates(rates: readonly number[]): RealisedSize {
	const counted = rates.length;
	const mean = rates.reduce((sum, rate) => sum + rate, 0) / counted;
	if (!(mean > 0)) return { size: null, standardError: null, counted };
	const size = 1 / (2 * mean);
	if (counted < 2) return { size, standardError: null, counted };
	const variance = rates.reduce((sum, rate) => sum + (rate - mean) ** 2, 0) / (counted - 1);
	return { size, standardError: 2 * size * size * Math.sqrt(variance / counted), counted };
}
