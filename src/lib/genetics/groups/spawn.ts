/** G2, G3 and G4 of the recursion: a brood from sets of fathers and mothers. Method and sources: groupKinship.ts. */
import type { ParentSide, SpawnEvent } from './event.ts';
import { addUnit, drawDifferent, drawTwo, type GrowingTable } from './table.ts';

/** An outside fish has unrelated parents, so two draws of its genes are copies half of the time. */
const outsiderSelf = 0.5;

interface Side {
	/** Known candidates: unit number and weight. */
	readonly known: readonly (readonly [unit: number, weight: number])[];
	readonly outside: number;
	readonly draw: 'one' | 'several';
}

export function addSpawn(table: GrowingTable, event: SpawnEvent): void {
	const fathers = readSide(table, event.fathers);
	const mothers = readSide(table, event.mothers);
	const earlier = table.units.length;
	const fatherRow = sideRow(table, fathers, earlier);
	const motherRow = sideRow(table, mothers, earlier);
	// Father and mother are different fish, also when both come from one unit of unknown sexes.
	let parents = 0;
	for (const [i, wi] of fathers.known)
		for (const [j, wj] of mothers.known) parents += wi * wj * drawDifferent(table, i, j);
	const within =
		(kinshipOfDraws(table, fathers, mothers) + kinshipOfDraws(table, mothers, fathers) + 2 * parents) / 4;

	// The one unknown parent as a fish of its own: its row is the mean of the candidates' rows, but its kinship
	// with itself is the mean of theirs, since it is one and the same fish in every brood.
	let father = -1;
	if (event.fathers.name !== undefined) {
		const self = meanSelf(table, fathers);
		father = addUnit(table, { id: event.fathers.name, count: 1, self, within: self }, (j) => fatherRow[j]!);
	}
	let mother = -1;
	if (event.mothers.name !== undefined) {
		const self = meanSelf(table, mothers);
		const row = (j: number) => (j === father ? parents : motherRow[j]!);
		mother = addUnit(table, { id: event.mothers.name, count: 1, self, within: self }, row);
	}

	for (const { unit, count } of event.young) {
		addUnit(table, { id: unit, count, self: (1 + parents) / 2, within }, (j) => {
			if (j < earlier) return (fatherRow[j]! + motherRow[j]!) / 2;
			if (j === father || j === mother) return (table.self[j]! + parents) / 2;
			return within;
		});
	}
}

function readSide(table: GrowingTable, side: ParentSide): Side {
	const total = side.from.reduce((sum, share) => sum + share.weight, 0);
	const known: [number, number][] = [];
	let outside = 0;
	for (const { unit, weight } of side.from) {
		if (unit === null) outside += weight / total;
		else known.push([table.index.get(unit)!, weight / total]);
	}
	return { known, outside, draw: side.draw };
}

/** Kinship of the drawn parent with every earlier unit. */
function sideRow(table: GrowingTable, side: Side, earlier: number): Float64Array {
	const row = new Float64Array(earlier);
	for (const [i, weight] of side.known)
		for (let j = 0; j < earlier; j++) row[j]! += weight * drawTwo(table, i, j);
	return row;
}

/** Kinship of the parents, on one side, of two different young. */
function kinshipOfDraws(table: GrowingTable, side: Side, other: Side): number {
	if (side.draw === 'one') return meanSelf(table, side);
	let sum = side.outside * side.outside * outsiderSelf;
	for (const [i, wi] of side.known)
		for (const [j, wj] of side.known) {
			const bothSides = i === j && other.known.some(([unit]) => unit === i);
			sum += wi * wj * (bothSides ? drawTwoOfHalf(table, i) : drawTwo(table, i, j));
		}
	return sum;
}

function meanSelf(table: GrowingTable, side: Side): number {
	return side.known.reduce((sum, [i, weight]) => sum + weight * table.self[i]!, side.outside * outsiderSelf);
}

/** Two draws with replacement from one sex of a unit of unknown sexes, half of it (either half, if n is odd). */
function drawTwoOfHalf(table: GrowingTable, unit: number): number {
	const n = table.count[unit]!;
	const same = (1 / Math.floor(n / 2) + 1 / Math.ceil(n / 2)) / 2;
	return same * table.self[unit]! + (1 - same) * table.within[unit]!;
}
