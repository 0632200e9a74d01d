import type { UnitId } from './event.ts';

/**
 * The kinship of every unit, as plain data that can be sent to another thread and kept.
 * Units are numbered in the order in which they came; every array is in that order.
 *
 * Kinship of two fish: the chance that a random gene of one and a random gene of the other, at the same place,
 * are copies of one ancestral gene (Malécot 1948).
 */
export interface GroupKinship {
	readonly units: readonly UnitId[];
	readonly index: ReadonlyMap<UnitId, number>;
	/** Fish in the unit, at least 1; of an emptied unit: the fish that it last held. */
	readonly count: readonly number[];
	/** True when all its fish have moved on into other units. */
	readonly emptied: readonly boolean[];
	/** Mean kinship of a fish with itself, (1 + F) / 2. */
	readonly self: readonly number[];
	/** Mean kinship of two different fish of the unit. */
	readonly within: readonly number[];
	/** `between[i][j]`, j < i: mean kinship of a random fish of unit i and one of unit j. */
	readonly between: readonly Float64Array[];
}

/** The same while it grows inside one call. */
export interface GrowingTable extends GroupKinship {
	readonly units: UnitId[];
	readonly index: Map<UnitId, number>;
	readonly count: number[];
	readonly emptied: boolean[];
	readonly self: number[];
	readonly within: number[];
	readonly between: Float64Array[];
}

/** Kinship of two units, or of a unit with itself when two fish are drawn with replacement: s/n + (1 - 1/n) w. */
export function drawTwo(table: GroupKinship, a: number, b: number): number {
	if (a !== b) return betweenUnits(table, a, b);
	const n = table.count[a]!;
	return table.self[a]! / n + (1 - 1 / n) * table.within[a]!;
}

/** Kinship of two different fish, one of each unit; the units may be the same. */
export function drawDifferent(table: GroupKinship, a: number, b: number): number {
	return a === b ? table.within[a]! : betweenUnits(table, a, b);
}

function betweenUnits(table: GroupKinship, a: number, b: number): number {
	return a > b ? table.between[a]![b]! : table.between[b]![a]!;
}

/** Adds a unit; `row[j]` is its kinship with the earlier unit j. The row is kept, not copied. */
export function addUnit(
	table: GrowingTable,
	unit: { id: UnitId; count: number; self: number; within: number },
	row: Float64Array
): number {
	const position = table.units.length;
	table.units.push(unit.id);
	table.index.set(unit.id, position);
	table.count.push(unit.count);
	table.emptied.push(false);
	table.self.push(unit.self);
	table.within.push(unit.within);
	table.between.push(row);
	return position;
}

/** Takes back the units added since there were so many. Counts and emptied units are the caller's to put back. */
export function dropUnits(table: GrowingTable, size: number): void {
	for (let i = size; i < table.units.length; i++) table.index.delete(table.units[i]!);
	for (const list of [table.units, table.count, table.emptied, table.self, table.within, table.between])
		list.length = size;
}

/** A table to grow that shares the rows of an earlier one. */
export function growingFrom(earlier: GroupKinship): GrowingTable {
	return {
		units: [...earlier.units],
		index: new Map(earlier.index),
		count: [...earlier.count],
		emptied: [...earlier.emptied],
		self: [...earlier.self],
		within: [...earlier.within],
		between: [...earlier.between]
	};
}

/**
 * Adds weight times the kinship of unit a with every earlier unit to a row that may be longer than there are units.
 * This is where nearly all time is spent: one pass along the row of a, one down its column.
 */
export function addRow(
	table: GroupKinship,
	row: Float64Array,
	a: number,
	weight: number,
	earlier: number
): void {
	const own = table.between[a]!;
	const before = Math.min(a, earlier);
	for (let j = 0; j < before; j++) row[j]! += weight * own[j]!;
	if (a < earlier) row[a]! += weight * drawTwo(table, a, a);
	for (let j = a + 1; j < earlier; j++) row[j]! += weight * table.between[j]![a]!;
}

/** Numbers of the units that a question names. */
export function positions(table: GroupKinship, units: readonly UnitId[], asker: string): number[] {
	if (units.length === 0) throw new RangeError(`${asker} requires at least one unit, got none`);
	if (new Set(units).size < units.length)
		throw new RangeError(`${asker} requires each unit once, got ${units.join(', ')}`);
	return units.map((unit) => {
		const position = table.index.get(unit);
		if (position === undefined)
			throw new RangeError(`${asker} requires known units, got ${JSON.stringify(unit)}`);
		// Its fish are in another unit by now: together with that one they would count twice.
		if (units.length > 1 && table.emptied[position])
			throw new RangeError(`${asker} requires units that hold fish, got ${JSON.stringify(unit)}`);
		return position;
	});
}
