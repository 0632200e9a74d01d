/**
 * Effective size over time: which steady number of breeders drifts as much as these changing numbers?
 *
 * The harmonic mean, t / sum of 1/N_t: one small generation counts more than many large ones. A close approximation
 * for numbers that are not tiny.
 * Source: Wright (1938), Science 87:430 (from memory).
 * Cost: O(generations).
 *
 * @param sizes effective size of each generation, above 0
 * @returns a number of breeders
 * @throws RangeError when there is none or one is not above 0
 * @example
 * effectiveSizeOverTime([100, 10, 100]) // => 25
 */
export function effectiveSizeOverTime(sizes: readonly number[]): number {
	if (sizes.length === 0 || !sizes.every((size) => size > 0))
		throw new RangeError(`effectiveSizeOverTime requires sizes above 0, got ${sizes.join(', ') || 'none'}`);
	return sizes.length / sizes.reduce((sum, size) => sum + 1 / size, 0);
}
