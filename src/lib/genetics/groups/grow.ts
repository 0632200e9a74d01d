/** The recursion, event by event: adds to a table what one event tells. Method and sources: groupKinship.ts. */
import type {
	FoundersEvent,
	GenerationsEvent,
	GroupEvent,
	MergeEvent,
	OneOfEvent,
	SplitEvent
} from './event.ts';
import { addLike, addSpawn } from './spawn.ts';
import { addRow, addUnit, drawDifferent, drawTwo, type GrowingTable } from './table.ts';

/** Adds one event that fits (`groupEventProblems` found nothing). Costs its new rows and no more. */
export function growBy(table: GrowingTable, event: GroupEvent): void {
	if (event.kind === 'founders') addFounders(table, event);
	else if (event.kind === 'spawn') addSpawn(table, event);
	else if (event.kind === 'split') addSplit(table, event);
	else if (event.kind === 'oneOf') addOneOf(table, event);
	else if (event.kind === 'merge') addMerge(table, event);
	else if (event.kind === 'generations') addGenerations(table, event);
	else setCount(table, table.index.get(event.unit)!, event.count);
}

function setCount(table: GrowingTable, unit: number, count: number): void {
	if (count === 0) table.emptied[unit] = true;
	else table.count[unit] = count;
}

function addFounders(table: GrowingTable, event: FoundersEvent): void {
	const row = new Float64Array(table.units.length);
	for (const { unit, kinship } of event.related ?? []) row[table.index.get(unit)!] = kinship;
	const self = (1 + (event.inbreeding ?? 0)) / 2;
	addUnit(table, { id: event.unit, count: event.count, self, within: event.within ?? 0 }, row);
}

function addSplit(table: GrowingTable, event: SplitEvent): void {
	const from = table.index.get(event.from)!;
	const all = event.count === table.count[from];
	const row = new Float64Array(table.units.length);
	addRow(table, row, from, 1, row.length);
	// When all have left, both names stand for the same fish: two draws may then be one fish, as the row has it.
	if (!all) row[from] = table.within[from]!;
	addUnit(
		table,
		{ id: event.unit, count: event.count, self: table.self[from]!, within: table.within[from]! },
		row
	);
	if (all) table.emptied[from] = true;
	else table.count[from]! -= event.count;
}

/** The weighted mean of the splits that may have been; new units of one source stay together in the mean. */
function addOneOf(table: GrowingTable, event: OneOfEvent): void {
	const total = event.from.reduce((sum, { weight }) => sum + weight, 0);
	const earlier = table.units.length;
	event.units.forEach(({ unit, count }, k) => {
		const row = new Float64Array(earlier + k);
		let self = 0;
		let within = 0;
		for (const { units, weight } of event.from) {
			const share = weight / total;
			const from = table.index.get(units[k]!)!;
			self += share * table.self[from]!;
			within += share * table.within[from]!;
			addRow(table, row, from, share, earlier);
			// The fish that stayed are others than those that came.
			row[from]! += share * (table.within[from]! - drawTwo(table, from, from));
			for (let l = 0; l < k; l++)
				row[earlier + l]! += share * drawDifferent(table, from, table.index.get(units[l]!)!);
		}
		addUnit(table, { id: unit, count, self, within }, row);
	});
}

function addMerge(table: GrowingTable, event: MergeEvent): void {
	const parts = event.of.map((unit) => table.index.get(unit)!);
	const count = parts.reduce((sum, part) => sum + table.count[part]!, 0);
	const self = parts.reduce((sum, part) => sum + table.count[part]! * table.self[part]!, 0) / count;
	const within =
		count === 1 ? table.within[parts[0]!]! : differentPairs(table, parts) / (count * (count - 1));
	const row = new Float64Array(table.units.length);
	for (const part of parts) addRow(table, row, part, table.count[part]! / count, row.length);
	addUnit(table, { id: event.unit, count, self, within }, row);
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

/** G8: so many generations of so many effective fathers and mothers; kinship with other units stays as it was. */
function addGenerations(table: GrowingTable, event: GenerationsEvent): void {
	const fathers = drawnFrom(table, event.fathers);
	const mothers = drawnFrom(table, event.mothers);
	const row = new Float64Array(table.units.length);
	for (const [unit, share] of [...fathers.shares, ...mothers.shares])
		addRow(table, row, unit, share / 2, row.length);
	// Where nobody tells the sexes apart, father and mother are two different fish of all of them.
	const unsexed = fathers.shares.some(([a]) => mothers.shares.some(([b]) => a === b));
	let parents = unsexed ? fathers.within : 0;
	if (!unsexed)
		for (const [a, x] of fathers.shares)
			for (const [b, y] of mothers.shares) parents += x * y * drawDifferent(table, a, b);
	let within = (drawBreeders(fathers, event.males) + drawBreeders(mothers, event.females) + 2 * parents) / 4;
	let self = (1 + parents) / 2;
	for (let generation = 1; generation < event.generations; generation++) {
		const draws =
			(1 / event.males + 1 / event.females) * self + (2 - 1 / event.males - 1 / event.females) * within;
		[self, within] = [(1 + within) / 2, (draws + 2 * within) / 4];
	}
	addLike(table, row, event.young, self, within);
	for (const [unit] of [...fathers.shares, ...mothers.shares]) table.emptied[unit] = true;
}

interface Drawn {
	/** Units, and the share of the fish that each has. */
	readonly shares: readonly (readonly [unit: number, share: number])[];
	readonly self: number;
	/** Kinship of two different fish of these units together. */
	readonly within: number;
}

function drawnFrom(table: GrowingTable, units: readonly string[]): Drawn {
	const parts = units.map((unit) => table.index.get(unit)!);
	const count = parts.reduce((sum, part) => sum + table.count[part]!, 0);
	const shares = parts.map((part) => [part, table.count[part]! / count] as const);
	const self = shares.reduce((sum, [part, share]) => sum + share * table.self[part]!, 0);
	const within =
		count === 1 ? table.within[parts[0]!]! : differentPairs(table, parts) / (count * (count - 1));
	return { shares, self, within };
}

/** Two draws with replacement from so many breeders, which are any of these fish. */
function drawBreeders({ self, within }: Drawn, breeders: number): number {
	return self / breeders + (1 - 1 / breeders) * within;
}
