/** G2, G3 and G4 of the recursion: a brood from sets of fathers and mothers. Method and sources: groupKinship.ts. */
import type { ParentSide, SpawnEvent } from './event.ts';
import { addRow, addUnit, drawDifferent, drawTwo, type GrowingTable } from './table.ts';

/** An outside fish has unrelated parents, so two draws of its genes are copies half of the time. */
const outsiderSelf = 0.5;

interface Candidate {
	readonly unit: number;
	readonly weight: number;
	/** Fish of the unit that had young, as if used evenly; undefined = all. */
	readonly breeders: number | undefined;
}

interface Side {
	readonly known: readonly Candidate[];
	readonly outside: number;
	readonly draw: 'one' | 'several';
}

export function addSpawn(table: GrowingTable, event: SpawnEvent): void {
	const fathers = readSide(table, event.fathers);
	const mothers = readSide(table, event.mothers);
	const earlier = table.units.length;
	// Father and mother are different fish, also when both come from one unit of unknown sexes.
	let parents = 0;
	for (const { unit: i, weight: wi } of fathers.known)
		for (const { unit: j, weight: wj } of mothers.known) parents += wi * wj * drawDifferent(table, i, j);
	const within =
		(kinshipOfDraws(table, fathers, mothers) + kinshipOfDraws(table, mothers, fathers) + 2 * parents) / 4;

	// The one unknown parent as a fish of its own: its row is the mean of the candidates' rows, but its kinship
	// with itself is the mean of theirs, since it is one and the same fish in every brood.
	let father = -1;
	if (event.fathers.name !== undefined) {
		const self = meanSelf(table, fathers);
		const row = new Float64Array(earlier);
		addSide(table, row, fathers, 1, earlier);
		father = addUnit(table, { id: event.fathers.name, count: 1, self, within: self }, row);
	}
	let mother = -1;
	if (event.mothers.name !== undefined) {
		const self = meanSelf(table, mothers);
		const row = new Float64Array(table.units.length);
		addSide(table, row, mothers, 1, earlier);
		if (father >= 0) row[father] = parents;
		mother = addUnit(table, { id: event.mothers.name, count: 1, self, within: self }, row);
	}

	const first = table.units.length;
	const shared = new Float64Array(first);
	addSide(table, shared, fathers, 0.5, earlier);
	addSide(table, shared, mothers, 0.5, earlier);
	for (const parent of [father, mother])
		if (parent >= 0) shared[parent] = (table.self[parent]! + parents) / 2;
	addLike(table, shared, event.young, (1 + parents) / 2, within);
}

/** Adds units that are alike: the same row with the units before them, kinship `within` with each other. */
export function addLike(
	table: GrowingTable,
	shared: Float64Array,
	units: readonly { readonly unit: string; readonly count: number }[],
	self: number,
	within: number
): void {
	units.forEach(({ unit, count }, k) => {
		let row = shared;
		if (k > 0) {
			row = new Float64Array(shared.length + k).fill(within, shared.length);
			row.set(shared);
		}
		addUnit(table, { id: unit, count, self, within }, row);
	});
}

function readSide(table: GrowingTable, side: ParentSide): Side {
	const total = side.from.reduce((sum, share) => sum + share.weight, 0);
	const known: Candidate[] = [];
	let outside = 0;
	for (const { unit, weight, breeders } of side.from) {
		if (unit === null) outside += weight / total;
		else known.push({ unit: table.index.get(unit)!, weight: weight / total, breeders });
	}
	return { known, outside, draw: side.draw };
}

/** Adds the kinship of the drawn parent with every earlier unit. */
function addSide(table: GrowingTable, row: Float64Array, side: Side, share: number, earlier: number): void {
	for (const { unit, weight } of side.known) addRow(table, row, unit, share * weight, earlier);
}

/** Kinship of the parents, on one side, of two different young. */
function kinshipOfDraws(table: GrowingTable, side: Side, other: Side): number {
	if (side.draw === 'one') return meanSelf(table, side);
	let sum = side.outside * side.outside * outsiderSelf;
	for (const a of side.known)
		for (const b of side.known) {
			const kinship = a === b ? drawTwoBreeders(table, a, other) : drawTwo(table, a.unit, b.unit);
			sum += a.weight * b.weight * kinship;
		}
	return sum;
}

function meanSelf(table: GrowingTable, side: Side): number {
	return side.known.reduce(
		(sum, { unit, weight }) => sum + weight * table.self[unit]!,
		side.outside * outsiderSelf
	);
}

/** Two draws with replacement from those fish of a unit that are parents on this side. */
function drawTwoBreeders(table: GrowingTable, { unit, breeders }: Candidate, other: Side): number {
	if (breeders !== undefined) return drawTwoOf(table, unit, 1 / breeders);
	if (!other.known.some((candidate) => candidate.unit === unit)) return drawTwo(table, unit, unit);
	// One sex of a unit of unknown sexes is half of it, either half if the number is odd.
	const n = table.count[unit]!;
	return drawTwoOf(table, unit, (1 / Math.floor(n / 2) + 1 / Math.ceil(n / 2)) / 2);
}

/** Two draws that meet the same fish with chance `same`. */
function drawTwoOf(table: GrowingTable, unit: number, same: number): number {
	return same * table.self[unit]! + (1 - same) * table.within[unit]!;
}
