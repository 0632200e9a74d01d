/**
 * Gene diversity: which share of the founders' diversity is still there?
 *
 * GD = 1 - MK: the chance that two genes drawn from the living fish, with replacement, are not copies of one
 * founder gene. Exact for the mean kinship given.
 * Source: Lacy (1995), Zoo Biology 14:565; Ballou & Lacy (1995) in Population Management for Survival and Recovery
 * (from memory).
 * Cost: O(1).
 *
 * @param meanKinship MK, a fish with itself included: of `meanKinships`, or `kinshipWithSelf` for groups; 0 to 1
 * @returns 0 to 1
 * @throws RangeError when the mean kinship is not from 0 to 1
 * @example
 * geneDiversity(0.125) // => 0.875
 */
export function geneDiversity(meanKinship: number): number {
	if (!(meanKinship >= 0 && meanKinship <= 1))
		throw new RangeError(`geneDiversity requires a mean kinship from 0 to 1, got ${meanKinship}`);
	return 1 - meanKinship;
}
