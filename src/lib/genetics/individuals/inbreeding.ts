import { kinship } from './kinship.ts';
import type { Pedigree } from './pedigree.ts';

/**
 * Inbreeding of single fish: how often are the two genes of a fish copies of one ancestral gene?
 *
 * F = 2 x kinship of the fish with itself - 1, from the full table.
 * Source: Wright (1922), American Naturalist 56:330.
 * Cost: that of `kinship`: O(n²) time and memory.
 *
 * @param pedigree parents before young, n fish
 * @returns n values from 0 to 1, in the order of the pedigree
 * @throws RangeError when a parent does not come before its young
 * @example
 * inbreeding(orderedPedigree([{ id: 'wild', mother: null, father: null }]))[0] // => 0
 */
export function inbreeding(pedigree: Pedigree): Float64Array {
	const n = pedigree.ids.length;
	const table = kinship(pedigree);
	return Float64Array.from({ length: n }, (_, i) => 2 * table[i * n + i]! - 1);
}
