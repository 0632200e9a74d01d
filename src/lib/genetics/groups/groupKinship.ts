import type { GroupEvent } from './event.ts';
import { groupEventProblems } from './groupEventProblems.ts';
import { growBy } from './grow.ts';
import { growingFrom, type GroupKinship } from './table.ts';

const nothing: GroupKinship = {
	units: [],
	index: new Map(),
	count: [],
	emptied: [],
	self: [],
	within: [],
	between: []
};

/**
 * Group kinship: how related are fish that are kept, bred, split and mixed in groups?
 *
 * For every unit it keeps four things: the number n of fish, s = mean kinship of a fish with itself, w = mean
 * kinship of two different fish, and the mean kinship with every other unit. Two draws with replacement from one
 * unit have kinship K = s/n + (1 - 1/n) w. A brood of fathers M and mothers W, each young drawing its parents by
 * itself, has F = theta(M,W), s = (1 + F)/2, w = [K(M,M) + K(W,W) + 2 theta(M,W)] / 4 and
 * theta(brood, X) = [K(M,X) + K(W,X)] / 2. Candidate fathers i with weights c_i: the same with weighted means,
 * and K(M,M) is sum c_i s_i for one unknown father of the whole brood, sum c_i c_j K(i,j) for several.
 * Split: s, w and row are kept, and the two parts have kinship w. Out of one of several units: the weighted mean
 * of the splits that may have been. Merge: means over fish and over pairs of fish. Of Nm effective fathers out of M:
 * K = s/Nm + (1 - 1/Nm) w. A colony nobody recorded: so many generations of w' = [K(M,M) + K(W,W) + 2 w] / 4,
 * s' = (1 + w)/2, its kinship with others as it was. Deaths and sales by chance: only n changes.
 * Exact expectations over Mendelian chance and the stated draws; the spread between fish is not given.
 * Source: Jiménez-Mena, Schad, Hanna & Lacy (2016), Ecology and Evolution 6:3067 (pedigrees of groups);
 * Henderson (1988), J. Dairy Sci. 71 suppl. 2:1 (several possible sires; from memory); Cockerham (1967),
 * Genetics 56:89 (group coancestry); Wright (1931), Genetics 16:97 (Nm and Nf parents). Differs from them in: one unknown father and several are told apart, and
 * the set was derived again for units that split and merge.
 * Cost: one row for each new unit: O(n) time and memory, times the candidate parents; earlier rows are shared, so
 * that going on from a table of n units costs the new rows and O(n) for the lists of units.
 *
 * @param events what happened, parents before their young; not changed
 * @param earlier what to go on from; not changed
 * @returns the table with a row for every unit heard of, in order of first mention
 * @throws RangeError when the events do not fit together; `groupEventProblems` lists all reasons
 * @example
 * const pair = [{ kind: 'founders', unit: 'father', count: 1 }, { kind: 'founders', unit: 'mother', count: 1 }];
 * const of = (unit) => ({ from: [{ unit, weight: 1 }], draw: 'several' });
 * const spawn = { kind: 'spawn', fathers: of('father'), mothers: of('mother'), young: [{ unit: 'fry', count: 40 }] };
 * groupKinship([...pair, spawn]).within[2] // => 0.25
 */
export function groupKinship(events: readonly GroupEvent[], earlier: GroupKinship = nothing): GroupKinship {
	const [problem] = groupEventProblems(events, earlier);
	if (problem)
		throw new RangeError(
			`groupKinship requires events that fit, got ${problem.code} for ${problem.ids.join(', ')}`
		);
	const table = growingFrom(earlier);
	for (const event of events) growBy(table, event);
	return table;
}
