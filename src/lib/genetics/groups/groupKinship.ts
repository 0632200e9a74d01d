import type { FoundersEvent, GroupEvent, MergeEvent, SplitEvent } from './event.ts';
import { groupEventProblems } from './groupEventProblems.ts';
import { addSpawn } from './spawn.ts';
import { addUnit, drawDifferent, drawTwo, type GroupKinship, type GrowingTable } from './table.ts';

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
 * Split: s, w and row are kept, and the two parts have kinship w. Merge: means over fish and over pairs of fish.
 * Exact expectations over Mendelian chance and the stated draws; the spread between fish is not given.
 * Source: Jiménez-Mena, Schad, Hanna & Lacy (2016), Ecology and Evolution 6:3067 (pedigrees of groups);
 * Henderson (1988), J. Dairy Sci. 71 suppl. 2:1 (several possible sires; from memory); Cockerham (1967),
 * Genetics 56:89 (group coancestry). Differs from them in: one unknown father and several are told apart, and
 * the set was derived again for units that split and merge.
 * Cost: one row for each new unit: O(n) time and memory, times the candidate parents; earlier rows are shared.
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
	const table: GrowingTable = {
		units: [...earlier.units],
		index: new Map(earlier.index),
		count: [...earlier.count],
		emptied: [...earlier.emptied],
		self: [...earlier.self],
		within: [...earlier.within],
		between: [...earlier.between]
	};
	for (const event of events) {
		if (event.kind === 'founders') addFounders(table, event);
		else if (event.kind === 'spawn') addSpawn(table, event);
		else if (event.kind === 'split') addSplit(table, event);
		else if (event.kind === 'merge') addMerge(table, event);
		else table.count[table.index.get(event.unit)!] = event.count;
	}
	return table;
}

function addFounders(table: GrowingTable, event: FoundersEvent): void {
	const related = new Map(event.related?.map(({ unit, kinship }) => [table.index.get(unit)!, kinship]));
	const self = (1 + (event.inbreeding ?? 0)) / 2;
	addUnit(
		table,
		{ id: event.unit, count: event.count, self, within: event.within ?? 0 },
		(j) => related.get(j) ?? 0
	);
}

function addSplit(table: GrowingTable, event: SplitEvent): void {
	const from = table.index.get(event.from)!;
	const all = event.count === table.count[from];
	// When all have left, both names stand for the same fish: two draws may then be one fish.
	const withSource = all ? drawTwo(table, from, from) : table.within[from]!;
	addUnit(
		table,
		{ id: event.unit, count: event.count, self: table.self[from]!, within: table.within[from]! },
		(j) => (j === from ? withSource : drawTwo(table, from, j))
	);
	if (all) table.emptied[from] = true;
	else table.count[from]! -= event.count;
}

function addMerge(table: GrowingTable, event: MergeEvent): void {
	const parts = event.of.map((unit) => table.index.get(unit)!);
	const count = parts.reduce((sum, part) => sum + table.count[part]!, 0);
	const self = parts.reduce((sum, part) => sum + table.count[part]! * table.self[part]!, 0) / count;
	const within =
		count === 1 ? table.within[parts[0]!]! : differentPairs(table, parts) / (count * (count - 1));
	addUnit(table, { id: event.unit, count, self, within }, (j) =>
		parts.reduce((sum, part) => sum + (table.count[part]! * drawTwo(table, part, j)) / count, 0)
	);
	for (const part of parts) table.emptied[part] = true;
}

/** Sum of the kinship over all ordered pairs of different fish of these units together. */
function differentPairs(table: GrowingTable, parts: readonly number[]): number {
	let sum = 0;
	for (const a of parts)
		for (const b of parts) {
			const others = a === b ? table.count[b]! - 1 : table.count[b]!;
			sum += table.count[a]! * others * drawDifferent(table, a, b);
		}
	return sum;
}
