import type { GroupKinship } from '#genetics/groups/table.ts';
import { outsideSelf, type Recipe, type SideRecipe, type Source } from './recipes.ts';
import type { WidenedUnit } from './tracedBack.ts';
import type { Entries } from './weighing.ts';

/** The least and the greatest that every entry of a table may be. */
export interface Bounds {
	readonly least: Entries;
	readonly greatest: Entries;
}

interface Growing {
	readonly self: number[];
	readonly within: number[];
	readonly between: Float64Array[];
}

/**
 * Bounds of a table: between which numbers does every kinship lie, whoever the uncertain parents were?
 *
 * The recursion is run twice more, with the least and with the greatest that each choice allows: the candidate
 * parent, or the stated mix, that gives least or most; assumed founders unrelated or as guessed; fish of doubtful
 * origin from any of their possible sources. Since the recursion only adds and averages, the true kinship under any
 * combination of choices lies between. Equal to the expectation where nothing is open; a bound, not always reached,
 * where several open things have forebears in common, because each entry takes its own best choice.
 * Source: our own choice; interval arithmetic (Moore 1966, Interval Analysis; from memory) on rules G1 to G7.
 * Cost: as the table, O(units squared times sources), twice.
 */
export function boundsOf(
	table: GroupKinship,
	recipes: readonly Recipe[],
	widened: ReadonlyMap<number, WidenedUnit>
): Bounds {
	return {
		least: bound(table, recipes, widened, Math.min, false),
		greatest: bound(table, recipes, widened, Math.max, true)
	};
}

type Pick2 = (a: number, b: number) => number;

function bound(
	table: GroupKinship,
	recipes: readonly Recipe[],
	widened: ReadonlyMap<number, WidenedUnit>,
	better: Pick2,
	isGreatest: boolean
): Entries {
	const size = table.units.length;
	const grown: Growing = { self: new Array(size), within: new Array(size), between: new Array(size) };
	for (const recipe of recipes) {
		const first = recipe.units[0]!;
		let row = new Float64Array(first);
		let [self, within] = [outsideSelf, 0];
		if (recipe.kind === 'founders') {
			self = table.self[first]!;
			const isLow = recipe.assumed && !isGreatest;
			within = isLow
				? 0
				: isGreatest && recipe.assumed
					? Math.max(recipe.within, recipe.atMost)
					: recipe.within;
			if (!isLow) for (const [other, kinship] of recipe.related) row[other] = kinship;
		} else if (recipe.kind === 'spawn') {
			bestRow(grown, row, recipe.fathers, 0.5, better);
			bestRow(grown, row, recipe.mothers, 0.5, better);
			const parents = bestParents(grown, recipe, better);
			self = (1 + parents) / 2;
			within =
				(bestDraws(grown, recipe.fathers, better) + bestDraws(grown, recipe.mothers, better) + 2 * parents) /
				4;
		} else [self, within] = taken(grown, row, recipe);
		const wide = widened.get(first);
		if (wide) {
			for (const other of wide.orOf) {
				const like = new Float64Array(first);
				addRow(grown, like, other, 1, 1);
				keepBest(row, like, better);
				self = better(self, grown.self[other]!);
				within = better(within, grown.within[other]!);
			}
			if (wide.orOutside && !isGreatest) [row, within] = [new Float64Array(first), 0];
		}
		recipe.units.forEach((unit, k) => {
			let own = row;
			if (k > 0) {
				own = new Float64Array(unit).fill(within, first);
				own.set(row);
			}
			grown.self[unit] = self;
			grown.within[unit] = within;
			grown.between[unit] = own;
		});
	}
	return grown;
}

function addRow(grown: Growing, row: Float64Array, unit: number, weight: number, same: number): void {
	const own = grown.between[unit]!;
	const before = Math.min(unit, row.length);
	for (let j = 0; j < before; j++) row[j]! += weight * own[j]!;
	for (let j = unit + 1; j < row.length; j++) row[j]! += weight * grown.between[j]![unit]!;
	if (unit < row.length) row[unit]! += weight * (same * grown.self[unit]! + (1 - same) * grown.within[unit]!);
}

/** Adds the best of the candidates' rows, entry by entry; a stated mix lies between them. */
function bestRow(grown: Growing, row: Float64Array, side: SideRecipe, share: number, better: Pick2): void {
	const [only] = side.sources;
	if (side.sources.length === 1 && only) {
		if (only.unit !== null) addRow(grown, row, only.unit, share, only.same);
		return;
	}
	const best = new Float64Array(row.length);
	side.sources.forEach((source, i) => {
		const own = i === 0 ? best : new Float64Array(row.length);
		if (source.unit !== null) addRow(grown, own, source.unit, share, source.same);
		if (i > 0) keepBest(best, own, better);
	});
	for (let j = 0; j < row.length; j++) row[j]! += best[j]!;
}

/** Entry by entry the better one; a call for each would take several times as long. */
function keepBest(best: Float64Array, other: Float64Array, better: Pick2): void {
	if (better === Math.max) {
		for (let j = 0; j < best.length; j++) if (other[j]! > best[j]!) best[j] = other[j]!;
	} else for (let j = 0; j < best.length; j++) if (other[j]! < best[j]!) best[j] = other[j]!;
}

function pairOf(grown: Growing, a: number | null, b: number | null): number {
	if (a === null || b === null) return 0;
	if (a === b) return grown.within[a]!;
	return a > b ? grown.between[a]![b]! : grown.between[b]![a]!;
}

function bestParents(grown: Growing, { fathers, mothers }: Recipe, better: Pick2): number {
	const all = fathers.sources.flatMap((father) =>
		mothers.sources.map((mother) => pairOf(grown, father.unit, mother.unit))
	);
	return bestOf(all, better);
}

function bestDraws(grown: Growing, side: SideRecipe, better: Pick2): number {
	const self = ({ unit }: Source) => (unit === null ? outsideSelf : grown.self[unit]!);
	if (side.draw === 'one') return bestOf(side.sources.map(self), better);
	// Whether father and mother come from one unit of unknown sexes depends on the choice: both are tried.
	const two = (source: Source, same: number) =>
		same * self(source) + (1 - same) * (source.unit === null ? 0 : grown.within[source.unit]!);
	let mix = 0;
	for (const a of side.sources)
		for (const b of side.sources)
			mix += a.weight * b.weight * (a === b ? two(a, a.twice) : pairOf(grown, a.unit, b.unit));
	return bestOf([mix, ...side.sources.flatMap((one) => [two(one, one.twice), two(one, one.same)])], better);
}

function bestOf(values: readonly number[], better: Pick2): number {
	return values.reduce((best, value) => better(best, value));
}

/** Splits and merges: means over the sources. */
function taken(grown: Growing, row: Float64Array, recipe: Recipe): [self: number, within: number] {
	const { sources } = recipe.fathers;
	let [self, within] = [0, 0];
	const all = recipe.fish.reduce((sum, fish) => sum + fish, 0);
	sources.forEach(({ unit, weight, same }, i) => {
		if (unit === null) return;
		addRow(grown, row, unit, weight, same);
		self += weight * grown.self[unit]!;
		if (recipe.kind === 'split' || all === 1) within += weight * grown.within[unit]!;
		else
			sources.forEach((other, k) => {
				const others = i === k ? recipe.fish[k]! - 1 : recipe.fish[k]!;
				within += (recipe.fish[i]! * others * pairOf(grown, unit, other.unit)) / (all * (all - 1));
			});
	});
	return [self, within];
}
