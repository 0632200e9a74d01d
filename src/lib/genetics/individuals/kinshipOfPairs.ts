import { forgettingOrder } from './forgettingOrder.ts';
import { inbreedingByTable } from './inbreedingByTable.ts';
import { requireParentsFirst, type Pedigree } from './pedigree.ts';

/** A table of this many fish takes 128 megabytes. */
const mostInTable = 4096;
/** So many rows are computed side by side: their numbers of one fish fill one line of the processor's memory. */
const together = 8;

/**
 * Kinship of pairs: how related are these two, and those two, and so on?
 *
 * The kinship of two fish is the inbreeding that a young of theirs would have, so a pretended young is added for each
 * pair and `inbreedingByTable` asked; where that would remember too many fish at a time, or cost more, rows are
 * computed instead as in `kinshipTimes`, some side by side, each for all pairs of one fish. A fish with itself is (1 + F) / 2. Exact.
 * Source: Wright (1922), American Naturalist 56:330 (F is the kinship of the parents); Colleau (2002), Genetics
 * Selection Evolution 34:409 (rows; from memory).
 * Cost: that of `inbreedingByTable`, or O(n) for each fish that stands for its pairs; never O(n²) memory.
 *
 * @param pedigree parents before young, n fish
 * @param F from `inbreeding` of the same pedigree
 * @param pairs places in the pedigree, two for each pair, one pair after the other
 * @returns one value from 0 to 1 for each pair
 * @throws RangeError when a place is none of the pedigree's or the number of places is odd
 * @example
 * const brood = orderedPedigree([['m'], ['f'], ['x', 'm', 'f']].map(([id, mother = null, father = null]) => ({ id, mother, father })));
 * kinshipOfPairs(brood, inbreeding(brood), Int32Array.of(0, 1, 0, 2, 2, 2)) // => new Float64Array([0, 0.25, 0.5])
 */
export function kinshipOfPairs(pedigree: Pedigree, F: Float64Array, pairs: Int32Array): Float64Array {
	const n = pedigree.ids.length;
	const count = pairs.length / 2;
	const wrong = pairs.find((place) => !(place >= 0 && place < n));
	if (!Number.isInteger(count) || wrong !== undefined)
		throw new RangeError(
			`kinshipOfPairs requires two places from 0 to ${n - 1} for each pair, got ${wrong ?? `${pairs.length} places`}`
		);
	requireParentsFirst(pedigree, 'kinshipOfPairs');
	const longer = withPretendedYoung(pedigree, pairs);
	const plan = forgettingOrder(longer);
	const groups = groupedByFish(n, pairs);
	const byTable = plan.most <= mostInTable && plan.cells < (groups.length * n) / 2;
	const result = byTable
		? inbreedingByTable(longer, plan).slice(n)
		: byRows(pedigree, F, pairs, groups, new Float64Array(count));
	for (let k = 0; k < count; k++)
		if (pairs[2 * k] === pairs[2 * k + 1]) result[k] = (1 + F[pairs[2 * k]!]!) / 2;
	return result;
}

function withPretendedYoung({ ids, mother, father }: Pedigree, pairs: Int32Array): Pedigree {
	const n = ids.length;
	const count = pairs.length / 2;
	const mothers = new Int32Array(n + count);
	const fathers = new Int32Array(n + count);
	mothers.set(mother);
	fathers.set(father);
	for (let k = 0; k < count; k++) {
		mothers[n + k] = pairs[2 * k]!;
		fathers[n + k] = pairs[2 * k + 1]!;
	}
	return { ids: [...ids, ...Array<string>(count).fill('pretended')], mother: mothers, father: fathers };
}

/** Pairs, by number, under that of their fish which stands in more pairs; from old to young fish. */
function groupedByFish(n: number, pairs: Int32Array): (readonly [fish: number, pairs: number[]])[] {
	const times = new Int32Array(n);
	for (const fish of pairs) times[fish]!++;
	const groups = new Map<number, number[]>();
	for (let k = 0; k < pairs.length / 2; k++) {
		const a = pairs[2 * k]!;
		const b = pairs[2 * k + 1]!;
		if (a === b) continue;
		const fish = times[b]! > times[a]! ? b : a;
		const group = groups.get(fish);
		if (group) group.push(k);
		else groups.set(fish, [k]);
	}
	return [...groups].sort(([a], [b]) => a - b);
}

/** Colleau's two passes for several fish at once, up from the youngest of them and down to the youngest partner. */
function byRows(
	{ mother, father }: Pedigree,
	F: Float64Array,
	pairs: Int32Array,
	groups: ReturnType<typeof groupedByFish>,
	result: Float64Array
): Float64Array {
	const n = mother.length;
	const halfD = new Float64Array(n);
	for (let i = 0; i < n; i++) {
		const m = mother[i]!;
		const f = father[i]!;
		halfD[i] = 0.25 - ((m < 0 ? -1 : F[m]!) + (f < 0 ? -1 : F[f]!)) / 8;
	}
	// One more fish, of kinship 0, stands for parents that are not known.
	const v = new Float64Array((n + 1) * together);
	for (let begin = 0; begin < groups.length; begin += together) {
		const batch = groups.slice(begin, begin + together);
		v.fill(0);
		batch.forEach(([fish], c) => (v[fish * together + c] = 1));
		for (let i = batch.at(-1)![0]; i >= 0; i--) {
			const m = (mother[i]! < 0 ? n : mother[i]!) * together;
			const f = (father[i]! < 0 ? n : father[i]!) * together;
			for (let c = 0, at = i * together; c < together; c++, at++) {
				const half = v[at]! / 2;
				v[m + c]! += half;
				v[f + c]! += half;
			}
		}
		v.fill(0, n * together);
		let last = 0;
		for (const [, asked] of batch)
			for (const k of asked) last = Math.max(last, pairs[2 * k]!, pairs[2 * k + 1]!);
		for (let i = 0; i <= last; i++) {
			const m = (mother[i]! < 0 ? n : mother[i]!) * together;
			const f = (father[i]! < 0 ? n : father[i]!) * together;
			const D = halfD[i]!;
			for (let c = 0, at = i * together; c < together; c++, at++)
				v[at] = D * v[at]! + (v[m + c]! + v[f + c]!) / 2;
		}
		batch.forEach(([fish, asked], c) => {
			for (const k of asked) {
				const partner = pairs[2 * k]! === fish ? pairs[2 * k + 1]! : pairs[2 * k]!;
				result[k] = v[partner * together + c]!;
			}
		});
	}
	return result;
}
