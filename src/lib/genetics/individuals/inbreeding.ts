import { forgettingOrder } from './forgettingOrder.ts';
import { inbreedingByAncestors } from './inbreedingByAncestors.ts';
import { inbreedingBySires } from './inbreedingBySires.ts';
import { inbreedingByTable } from './inbreedingByTable.ts';
import type { Pedigree } from './pedigree.ts';

/** A table of this many fish takes a quarter of a gigabyte; more is not asked of a phone. */
const mostInTable = 5792;
/** Nanoseconds, measured on one machine: only their ratios matter, and only to speed. */
const perAncestor = 15;
const perParents = 1.5;
const perCell = 3;
/** A table of more rows than this is larger than the processor's memory, and each so many add a nanosecond. */
const large = 1500;
const oneMoreFor = 350;

/**
 * Inbreeding of single fish: how often are the two genes of a fish copies of one ancestral gene?
 *
 * Chooses the quickest of three exact ways by what each would cost: `inbreedingByTable` for many generations of a
 * small population, `inbreedingBySires` for many of a large one, `inbreedingByAncestors` where fish have few
 * ancestors. All agree to 1e-12.
 * Source: Wright (1922), American Naturalist 56:330; Emik & Terrill (1949), Journal of Heredity 40:51; Meuwissen &
 * Luo (1992), Genetics Selection Evolution 24:305; Sargolzaei, Iwaisaki & Colleau (2005), J. Anim. Breed. Genet.
 * 122:325 (from memory).
 * Cost: see the three; O(n) to choose. `npm run bench -- genetics` tells how long 100,000 fish of 56 years take.
 *
 * @param pedigree parents before young, n fish
 * @returns n values from 0 to 1, in the order of the pedigree
 * @throws RangeError when a parent does not come before its young
 * @example
 * inbreeding(orderedPedigree([{ id: 'wild', mother: null, father: null }]))[0] // => 0
 */
export function inbreeding(pedigree: Pedigree): Float64Array {
	const plan = forgettingOrder(pedigree);
	const ofCell = perCell + Math.max(0, plan.most - large) / oneMoreFor;
	const byTable = plan.most <= mostInTable ? plan.cells * ofCell : Infinity;
	const bySires = perParents * fewerParents(pedigree) * plan.order.length;
	const byAncestors = perAncestor * ancestorSteps(pedigree);
	if (byTable <= Math.min(bySires, byAncestors)) return inbreedingByTable(pedigree, plan);
	return bySires <= byAncestors ? inbreedingBySires(pedigree) : inbreedingByAncestors(pedigree);
}

/** How many fathers, or mothers if these are fewer, have young whose other parent is known. */
function fewerParents({ mother, father }: Pedigree): number {
	const isMother = new Uint8Array(mother.length);
	const isFather = new Uint8Array(mother.length);
	for (let i = 0; i < mother.length; i++)
		if (mother[i]! >= 0 && father[i]! >= 0) isMother[mother[i]!] = isFather[father[i]!] = 1;
	const count = (sum: number, one: number) => sum + one;
	return Math.min(isMother.reduce(count, 0), isFather.reduce(count, 0));
}

/**
 * About how many ancestors would be visited: counted for some broods of two known parents, spread over the pedigree.
 * Brothers and sisters whose records do not stand together count as broods of their own.
 */
function ancestorSteps({ mother, father }: Pedigree): number {
	const n = mother.length;
	const samples = 24;
	const bred: number[] = [];
	for (let i = 0; i < n; i++) {
		if (mother[i]! < 0 || father[i]! < 0) continue;
		if (i === 0 || mother[i] !== mother[i - 1] || father[i] !== father[i - 1]) bred.push(i);
	}
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
