import { forgettingOrder } from './forgettingOrder.ts';
import { inbreedingByAncestors } from './inbreedingByAncestors.ts';
import { inbreedingByTable } from './inbreedingByTable.ts';
import type { Pedigree } from './pedigree.ts';

/** A table of this many fish takes a quarter of a gigabyte; more is not asked of a phone. */
const mostInTable = 5792;
/** Nanoseconds, measured on one machine: only their ratio matters, and only to speed. */
const perAncestor = 3;
const perCell = 3;
/** A table that is larger than the processor's memory is filled more slowly. */
const perCellOfLarge = 10;
const large = 1500;

/**
 * Inbreeding of single fish: how often are the two genes of a fish copies of one ancestral gene?
 *
 * Chooses the quicker of two exact ways by what each would cost: `inbreedingByTable` for many generations of a small
 * population, `inbreedingByAncestors` for few generations of a large one. Both agree to 1e-12.
 * Source: Wright (1922), American Naturalist 56:330; Emik & Terrill (1949), Journal of Heredity 40:51; Meuwissen &
 * Luo (1992), Genetics Selection Evolution 24:305.
 * Cost: see the two; O(n) to choose. 100,000 fish of 60 years take about a second or some, `npm run bench` tells.
 *
 * @param pedigree parents before young, n fish
 * @returns n values from 0 to 1, in the order of the pedigree
 * @throws RangeError when a parent does not come before its young
 * @example
 * inbreeding(orderedPedigree([{ id: 'wild', mother: null, father: null }]))[0] // => 0
 */
export function inbreeding(pedigree: Pedigree): Float64Array {
	const plan = forgettingOrder(pedigree);
	const byTable = plan.cells * (plan.most > large ? perCellOfLarge : perCell);
	if (plan.most <= mostInTable && byTable <= perAncestor * ancestorSteps(pedigree))
		return inbreedingByTable(pedigree, plan);
	return inbreedingByAncestors(pedigree);
}

/** About how many ancestors would be visited: counted for some fish with two parents, spread over the pedigree. */
function ancestorSteps({ mother, father }: Pedigree): number {
	const n = mother.length;
	const samples = 24;
	const bred: number[] = [];
	for (let i = 0; i < n; i++) if (mother[i]! >= 0 && father[i]! >= 0) bred.push(i);
	const seenFor = new Int32Array(n).fill(-1);
	const waiting: number[] = [];
	let visited = 0;
	let counted = 0;
	for (let k = 0; k < samples && k < bred.length; k++) {
		const fish = bred[Math.floor(((k + 0.5) * bred.length) / Math.min(samples, bred.length))]!;
		counted++;
		waiting.push(mother[fish]!, father[fish]!);
		while (waiting.length > 0) {
			const a = waiting.pop()!;
			if (a < 0 || seenFor[a] === k) continue;
			seenFor[a] = k;
			visited++;
			waiting.push(mother[a]!, father[a]!);
		}
	}
	return counted ? (visited / counted) * bred.length : 0;
}
