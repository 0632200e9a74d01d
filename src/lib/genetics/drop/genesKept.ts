import type { DroppedFish } from './dropGenes.ts';

export interface GenesKept {
	/** Of all different genes that the founders had, 0 to 1. */
	readonly all: number;
	/** By founders: how many different genes they had, over all places, and which share is still there. */
	readonly of: ReadonlyMap<string, { readonly genes: number; readonly share: number }>;
}

/**
 * Genes kept: which share of the founders' genes is still there in one drop?
 *
 * Counts the different founder genes, place by place, and those of them that some living fish carries. Founders that
 * were brothers and sisters share genes: these count once. The mean over drops is the retention r of these founders.
 * Source: MacCluer, VandeBerg, Read & Ryder (1986), Zoo Biology 5:147; Lacy (1989), Zoo Biology 8:111.
 * Cost: O(fish × places).
 *
 * @param founders as they came, out of one drop of `dropGenes`, taken together as one likes
 * @param living out of the same drop
 * @returns shares; 1 where every gene has a copy
 * @throws RangeError when there are no founders
 * @example
 * const founders = new Map([['wild', [Int32Array.of(1, 2), Int32Array.of(3, 4)]]]);
 * genesKept(founders, [Int32Array.of(1, 3)]).all // => 0.5
 */
export function genesKept(
	founders: ReadonlyMap<string, readonly DroppedFish[]>,
	living: readonly DroppedFish[]
): GenesKept {
	// Genes of different places have different numbers: one set holds them all.
	const genesOf = (fish: readonly DroppedFish[]) => {
		const genes = new Set<number>();
		for (const one of fish) for (const gene of one) genes.add(gene);
		return genes;
	};
	const there = genesOf(living);
	const brought = genesOf([...founders.values()].flat());
	if (brought.size === 0) throw new RangeError('genesKept requires founders, got none');
	const shareOf = (genes: ReadonlySet<number>) => {
		let kept = 0;
		for (const gene of genes) if (there.has(gene)) kept++;
		return kept / genes.size;
	};
	const of = [...founders].map(([id, fish]) => {
		const genes = genesOf(fish);
		return [id, { genes: genes.size, share: shareOf(genes) }] as const;
	});
	return { all: shareOf(brought), of: new Map(of) };
}
