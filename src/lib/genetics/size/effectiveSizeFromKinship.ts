import { sizeFromRates, type RealisedSize } from './effectiveSizeFromInbreeding.ts';

/**
 * Effective size from kinship: how many breeders drift as fast as the kinship of these pairs went up?
 *
 * Of each pair dC = 1 - (1 - kinship)^(2/(g_i + g_j)), g the equivalent generations; Ne = 1 / (2 mean dC). Unlike
 * inbreeding, kinship does not depend on which mates were chosen, so lines kept apart are seen. Pairs without known
 * ancestors on both sides together are left out.
 * Source: Cervantes, Goyache, Molina, Valera & Gutiérrez (2011), Journal of Animal Breeding and Genetics 128:56 (from
 * memory).
 * Cost: O(pairs).
 *
 * @param kinships of pairs of different fish, 0 to 1: see `kinshipOfPairs`
 * @param generations mean equivalent generations of the two fish of each pair
 * @returns the size; `size` is null where kinship is 0 throughout
 * @throws RangeError when the lengths differ
 * @example
 * effectiveSizeFromKinship([0.25], [1]) // => { size: 2, standardError: null, counted: 1 }
 */
export function effectiveSizeFromKinship(
	kinships: ArrayLike<number>,
	generations: ArrayLike<number>
): RealisedSize {
	if (kinships.length !== generations.length)
		throw new RangeError(
			`effectiveSizeFromKinship requires one number of generations for each pair, got ${generations.length} for ${kinships.length}`
		);
	const rates: number[] = [];
	for (let k = 0; k < kinships.length; k++)
		if (generations[k]! > 0) rates.push(1 - (1 - kinships[k]!) ** (1 / generations[k]!));
	return sizeFromRates(rates);
}
