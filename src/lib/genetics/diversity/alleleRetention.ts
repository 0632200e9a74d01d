import { requireParentsFirst, type Pedigree } from '../individuals/pedigree.ts';

/**
 * Allele retention: which share of each founder's two genes is still there in the living fish?
 *
 * Gene drop: every founder gets two genes of its own, each young draws one of each parent, and it is counted how many
 * founder genes the living hold; the mean over many drops. Simulated: the standard error of a share r is at most
 * sqrt(r (1 - r) / drops). A single parent that is not known is a founder of its own.
 * Source: MacCluer, VandeBerg, Read & Ryder (1986), Zoo Biology 5:147 (gene drop); Lacy (1989), Zoo Biology 8:111.
 * Cost: O(n drops) time, O(n) memory.
 *
 * @param pedigree parents before young, n fish
 * @param living places in the pedigree
 * @param random numbers from 0 up to 1; the same numbers give the same answer
 * @param drops how many times, 1 or more; 1000 gives about two decimals
 * @returns shares from 0 to 1, founders and unknown parents in the order of `founderContributions`
 * @throws RangeError when nobody lives, `drops` is not a whole number above 0, or young come too early
 * @example
 * const wild = orderedPedigree([{ id: 'wild', mother: null, father: null }]);
 * alleleRetention(wild, [0], () => 0.5, 3).founders // => new Float64Array([1])
 */
export function alleleRetention(
	pedigree: Pedigree,
	living: readonly number[] | Int32Array,
	random: () => number,
	drops: number
): { readonly founders: Float64Array; readonly unknownParents: Float64Array } {
	requireParentsFirst(pedigree, 'alleleRetention');
	if (living.length === 0)
		throw new RangeError('alleleRetention requires at least one living fish, got none');
	if (!(Number.isInteger(drops) && drops > 0))
		throw new RangeError(`alleleRetention requires a whole number of drops above 0, got ${drops}`);
	const { mother, father } = pedigree;
	const n = mother.length;
	const isFounder: boolean[] = [];
	for (let i = 0; i < n; i++) {
		if (mother[i]! < 0 && father[i]! < 0) isFounder.push(true);
		else if (mother[i]! < 0 || father[i]! < 0) isFounder.push(false);
	}
	/** Two genes of each fish; of a founder's, both are its own, of an unknown parent's, the young holds one. */
	const genes = new Int32Array(2 * n);
	const seenIn = new Int32Array(2 * isFounder.length).fill(-1);
	const kept = new Float64Array(isFounder.length);
	for (let drop = 0; drop < drops; drop++) {
		let source = 0;
		for (let i = 0; i < n; i++) {
			const m = mother[i]!;
			const f = father[i]!;
			if (m < 0 && f < 0) {
				genes[2 * i] = 2 * source;
				genes[2 * i + 1] = 2 * source + 1;
				source++;
				continue;
			}
			const unknown = m < 0 || f < 0 ? 2 * source++ + (random() < 0.5 ? 0 : 1) : -1;
			genes[2 * i] = m < 0 ? unknown : genes[2 * m + (random() < 0.5 ? 0 : 1)]!;
			genes[2 * i + 1] = f < 0 ? unknown : genes[2 * f + (random() < 0.5 ? 0 : 1)]!;
		}
		for (const place of living)
			for (let side = 0; side < 2; side++) {
				const gene = genes[2 * place + side]!;
				if (seenIn[gene] === drop) continue;
				seenIn[gene] = drop;
				kept[gene >> 1]! += 0.5;
			}
	}
	const shares = (founders: boolean) =>
		kept.filter((_, source) => isFounder[source] === founders).map((count) => count / drops);
	return { founders: shares(true), unknownParents: shares(false) };
}
