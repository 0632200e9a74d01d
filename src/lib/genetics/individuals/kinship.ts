import type { Pedigree } from './pedigree.ts';

/**
 * Kinship of single fish: how related is every fish to every other?
 *
 * Tabular method, row by row: kinship of a fish with an older one is the mean over its parents, with itself
 * (1 + kinship of its parents) / 2; an unknown parent adds 0. Exact.
 * Source: Wright (1922), American Naturalist 56:330; Emik & Terrill (1949), Journal of Heredity 40:51;
 * Cruden (1949), Journal of Heredity 40:248.
 * Cost: O(n²) time, O(n²) memory for n fish: meant for some thousands.
 *
 * @param pedigree parents before young, n fish
 * @returns n rows of n one after the other, symmetric; place i * n + j is the kinship of fish i and j
 * @throws RangeError when a parent does not come before its young
 * @example
 * const young = ['x', 'y'].map((id) => ({ id, mother: 'm', father: 'f' }));
 * const old = ['m', 'f'].map((id) => ({ id, mother: null, father: null }));
 * kinship(orderedPedigree([...old, ...young]))[2 * 4 + 3] // => 0.25
 */
export function kinship(pedigree: Pedigree): Float64Array {
	const n = pedigree.ids.length;
	const table = new Float64Array(n * n);
	for (let i = 0; i < n; i++) {
		const mother = pedigree.mother[i]!;
		const father = pedigree.father[i]!;
		if (mother >= i || father >= i)
			throw new RangeError(`kinship requires parents before young, got ${pedigree.ids[i]} too early`);
		for (let j = 0; j < i; j++) {
			const byMother = mother < 0 ? 0 : table[mother * n + j]!;
			const byFather = father < 0 ? 0 : table[father * n + j]!;
			table[i * n + j] = table[j * n + i] = (byMother + byFather) / 2;
		}
		const parents = mother < 0 || father < 0 ? 0 : table[mother * n + father]!;
		table[i * n + i] = (1 + parents) / 2;
	}
	return table;
}
