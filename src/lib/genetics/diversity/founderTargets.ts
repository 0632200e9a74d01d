/**
 * Founder targets: which share should each founder have, so that least is lost of what is still there?
 *
 * In proportion to how much of each founder's genes is still there: a founder of which half is lost should have half
 * the share of one that is whole. Founders with less than their target are the ones to breed from.
 * Source: Lacy (1989), Zoo Biology 8:111 (from memory).
 * Cost: O(founders).
 *
 * @param kept share of each founder's two genes that is still there, from 0 to 1: see `alleleRetention`
 * @returns shares in the same order, sum 1
 * @throws RangeError when a share is not from 0 to 1 or nothing is kept of any
 * @example
 * founderTargets([1, 0.5, 0.5]) // => new Float64Array([0.5, 0.25, 0.25])
 */
export function founderTargets(kept: ArrayLike<number>): Float64Array {
	const given = Float64Array.from(kept);
	const total = given.reduce((sum, r) => sum + r, 0);
	if (!(total > 0 && given.every((r) => r >= 0 && r <= 1)))
		throw new RangeError(`founderTargets requires shares from 0 to 1, got a sum of ${total}`);
	return given.map((r) => r / total);
}
