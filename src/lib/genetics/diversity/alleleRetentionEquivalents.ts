/**
 * Allele-retention equivalents: how many founders with equal shares and nothing lost would be as many as these?
 *
 * 1 / sum of p_f² / r_f, p_f the founder's share and r_f the share of its genes that is still there. It is Lacy's first
 * definition of founder genome equivalents and greater than 1 / (2 MK), which alone fits the gene diversity: see
 * `founderGenomeEquivalents`. As exact as the retention given. Since a gene's mean frequency cannot exceed the chance
 * that it is there, r_f is at least p_f / 2: that stands in where no drop kept a gene of a founder with a small share.
 * Source: Lacy (1989), Zoo Biology 8:111 (formula read in a page that quotes it).
 * Cost: O(founders).
 *
 * @param shares of all founders, unknown parents among them, sum 1: see `founderContributions`
 * @param kept of the same founders in the same order, from 0 to 1: see `alleleRetention`
 * @returns a number of founders
 * @throws RangeError when the lengths differ or a number is not from 0 to 1
 * @example
 * alleleRetentionEquivalents([0.5, 0.5], [0.75, 0.75]) // => 1.5
 */
export function alleleRetentionEquivalents(shares: ArrayLike<number>, kept: ArrayLike<number>): number {
	if (shares.length !== kept.length)
		throw new RangeError(
			`alleleRetentionEquivalents requires one retention for each share, got ${kept.length} for ${shares.length}`
		);
	let sum = 0;
	for (let k = 0; k < shares.length; k++) {
		const p = shares[k]!;
		const r = kept[k]!;
		if (!(p >= 0 && p <= 1 && r >= 0 && r <= 1))
			throw new RangeError(`alleleRetentionEquivalents requires numbers from 0 to 1, got ${p} and ${r}`);
		if (p > 0) sum += (p * p) / Math.max(r, p / 2);
	}
	return 1 / sum;
}
