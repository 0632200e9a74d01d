/**
 * Founder genome equivalents: how many unrelated founders would hold as much diversity as the living fish do?
 *
 * FGE = 1 / (2 MK). It fits the gene diversity, 1 - 1 / (2 FGE). Lacy's first definition, from the founder genes
 * that are still there, is another figure: see `alleleRetentionEquivalents`. Exact for the mean kinship given.
 * Source: Caballero & Toro (2000), Genetical Research 75:331; Ballou & Lacy (1995) (from memory).
 * Cost: O(1).
 *
 * @param meanKinship MK, a fish with itself included: of `meanKinships`, or `kinshipWithSelf` for groups; above 0
 * @returns a number of founders, at least 1/2
 * @throws RangeError when the mean kinship is not above 0 and at most 1
 * @example
 * founderGenomeEquivalents(0.125) // => 4
 */
export function founderGenomeEquivalents(meanKinship: number): number {
	if (!(meanKinship > 0 && meanKinship <= 1))
		throw new RangeError(`founderGenomeEquivalents requires a mean kinship above 0, got ${meanKinship}`);
	return 1 / (2 * meanKinship);
}
