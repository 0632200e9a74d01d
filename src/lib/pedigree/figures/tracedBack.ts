import type { GroupKinship } from '#genetics/groups/table.ts';
import type { ThingId } from '#records/entry.ts';
import type { Widened } from '../gathered.ts';
import { pairOf, selfOf, twoOf, type Recipe, type SideRecipe, type Source } from './recipes.ts';
import type { Weighing } from './weighing.ts';

/** One open thing, and what the figure would be at the least and at the most if it alone were known. */
export interface OpenThing {
	/** Place of the event in the list of events. */
	readonly event: number;
	readonly about: 'parents' | 'founders' | 'origin';
	readonly least: number;
	readonly greatest: number;
}

/** What later events make of the units of one event: weights of their entries in the figure. */
interface Weights {
	readonly pairs: Float64Array[];
	readonly self: Float64Array;
	readonly within: Float64Array;
}

/** Less than this is rounding. */
const rounding = 1e-12;

/**
 * Traced back: which open things does a figure hang on, and how much does each of them alone change it?
 *
 * The recursion is linear in the entries of the table. Going back from the last unit to the first, the weight of each
 * entry in the figure is passed on to the entries that it was made of; when a brood is reached, its weights give the
 * figure for each other choice of its parents without computing anything again. Exact for one thing at a time, all
 * others as expected.
 * Source: our own choice; the method is the adjoint of a linear recursion (common knowledge).
 * Cost: O(units squared times sources), whatever the number of open things and choices.
 *
 * @param figure its value in `table`
 * @param widened by the number of the unit
 * @returns open things that change the figure, in order of the events
 */
export function tracedBack(
	table: GroupKinship,
	recipes: readonly Recipe[],
	weighing: Weighing,
	figure: number,
	widened: ReadonlyMap<number, WidenedUnit>
): OpenThing[] {
	const size = table.units.length;
	const weights: Weights = {
		pairs: table.units.map((_, unit) => new Float64Array(unit)),
		self: new Float64Array(size),
		within: new Float64Array(size)
	};
	for (const [a, b, weight] of weighing.pairs) weights.pairs[Math.max(a, b)]![Math.min(a, b)]! += weight;
	for (const [unit, weight] of weighing.self) weights.self[unit]! += weight;
	for (const [unit, weight] of weighing.within) weights.within[unit]! += weight;
	const open: OpenThing[] = [];
	for (let i = recipes.length - 1; i >= 0; i--) {
		const recipe = recipes[i]!;
		const of = gathered(weights, recipe.units);
		const changes = changesOf(table, recipe, of, widened.get(recipe.units[0]!));
		const [least, greatest] = [Math.min(0, ...changes), Math.max(0, ...changes)];
		if (greatest - least > rounding)
			open.push({
				event: recipe.event,
				about: recipe.kind === 'spawn' ? 'parents' : recipe.kind === 'founders' ? 'founders' : 'origin',
				least: figure + least,
				greatest: figure + greatest
			});
		passOn(weights, recipe, of);
	}
	return open.reverse();
}

export interface WidenedUnit extends Pick<Widened, 'orOutside'> {
	readonly orOf: readonly number[];
}
/** Of an event: who it concerns is looked up by the caller. */
export type OpenOf = (event: number) => { readonly spawn: ThingId | null; readonly group: ThingId | null };

interface Gathered {
	/** Weight of the kinship of the new units with each earlier one. */
	readonly row: Float64Array;
	readonly self: number;
	/** Of two different fish of the new units. */
	readonly within: number;
	/** Whether anything of it matters. */
	readonly matters: boolean;
}

/** Units of one event have the same row, self and within: their weights add up. */
function gathered(weights: Weights, units: readonly number[]): Gathered {
	const first = units[0]!;
	const row = units.length === 1 ? weights.pairs[first]! : new Float64Array(first);
	let [self, within] = [0, 0];
	for (const unit of units) {
		self += weights.self[unit]!;
		within += weights.within[unit]!;
		const own = weights.pairs[unit]!;
		if (row !== own) for (let j = 0; j < first; j++) row[j]! += own[j]!;
		for (let j = first; j < unit; j++) within += own[j]!;
	}
	const matters = self !== 0 || within !== 0 || row.some((weight) => weight !== 0);
	return { row, self, within, matters };
}

function passOn(weights: Weights, recipe: Recipe, of: Gathered): void {
	if (!of.matters || recipe.kind === 'founders') return;
	const { sources } = recipe.fathers;
	if (recipe.kind === 'spawn') {
		passRow(weights, of.row, sources, 0.5);
		passRow(weights, of.row, recipe.mothers.sources, 0.5);
		for (const father of sources)
			for (const mother of recipe.mothers.sources)
				addPair(
					weights,
					father.unit,
					mother.unit,
					father.weight * mother.weight * (of.self / 2 + of.within / 2)
				);
		passDraws(weights, recipe.fathers, of.within / 4);
		passDraws(weights, recipe.mothers, of.within / 4);
		return;
	}
	passRow(weights, of.row, sources, 1);
	const all = recipe.fish.reduce((sum, fish) => sum + fish, 0);
	for (const [i, { unit, weight }] of sources.entries()) {
		if (unit === null) continue;
		weights.self[unit]! += of.self * weight;
		if (recipe.kind === 'split' || all === 1) weights.within[unit]! += of.within * weight;
		else
			for (const [k, other] of sources.entries())
				addPair(
					weights,
					unit,
					other.unit,
					(of.within * recipe.fish[i]! * (i === k ? recipe.fish[k]! - 1 : recipe.fish[k]!)) /
						(all * (all - 1))
				);
	}
}

function addPair(weights: Weights, a: number | null, b: number | null, weight: number): void {
	if (a === null || b === null) return;
	if (a === b) weights.within[a]! += weight;
	else weights.pairs[Math.max(a, b)]![Math.min(a, b)]! += weight;
}

function passRow(weights: Weights, row: Float64Array, sources: readonly Source[], share: number): void {
	for (const { unit, weight, same } of sources) {
		if (unit === null) continue;
		const part = weight * share;
		const own = weights.pairs[unit]!;
		const before = Math.min(unit, row.length);
		for (let j = 0; j < before; j++) own[j]! += part * row[j]!;
		for (let j = unit + 1; j < row.length; j++) if (row[j] !== 0) weights.pairs[j]![unit]! += part * row[j]!;
		if (unit < row.length) {
			weights.self[unit]! += part * same * row[unit]!;
			weights.within[unit]! += part * (1 - same) * row[unit]!;
		}
	}
}

function passDraws(weights: Weights, side: SideRecipe, weight: number): void {
	for (const [i, a] of side.sources.entries()) {
		if (a.unit === null) continue;
		if (side.draw === 'one') {
			weights.self[a.unit]! += weight * a.weight;
			continue;
		}
		for (const [k, b] of side.sources.entries()) {
			const share = weight * a.weight * b.weight;
			if (i !== k) addPair(weights, a.unit, b.unit, share);
			else {
				weights.self[a.unit]! += share * a.twice;
				weights.within[a.unit]! += share * (1 - a.twice);
			}
		}
	}
}

/** What each other way of this one event adds to the figure. */
function changesOf(
	table: GroupKinship,
	recipe: Recipe,
	of: Gathered,
	widened: WidenedUnit | undefined
): number[] {
	if (!of.matters) return [];
	const unit = recipe.units[0]!;
	const row = (other: number | null, same: number) => rowFigure(table, of.row, other, same);
	if (recipe.kind === 'founders') {
		if (!recipe.assumed) return [];
		let related = 0;
		for (const [other, kinship] of recipe.related) related -= of.row[other]! * kinship;
		const apart = -of.within * recipe.within;
		return [apart, related, apart + related, of.within * (recipe.atMost - recipe.within)];
	}
	if (recipe.kind !== 'spawn') {
		if (!widened) return [];
		const now = row(unit, 0);
		const as = (other: number) =>
			row(other, 0) -
			now +
			of.self * (table.self[other]! - table.self[unit]!) +
			of.within * (table.within[other]! - table.within[unit]!);
		return [...widened.orOf.map(as), ...(widened.orOutside ? [-now - of.within * table.within[unit]!] : [])];
	}
	const { fathers, mothers } = recipe;
	if (fathers.sources.length * mothers.sources.length < 2) return [];
	const now = row(unit, 0) + of.self * table.self[unit]! + of.within * table.within[unit]!;
	// Two young's fathers, if he comes from this source: half of the fish only where the mother is of the same unit.
	const draws = (side: SideRecipe, source: Source, other: Source) => {
		const same = source.unit === other.unit ? source.twice : source.same;
		return side.draw === 'one' ? selfOf(table, source.unit) : twoOf(table, source.unit, same);
	};
	const rows = (side: SideRecipe) => side.sources.map((source) => row(source.unit, source.same) / 2);
	const [fatherRows, motherRows] = [rows(fathers), rows(mothers)];
	return fathers.sources.flatMap((father, i) =>
		mothers.sources.map((mother, k) => {
			const parents = pairOf(table, father.unit, mother.unit);
			const within = (draws(fathers, father, mother) + draws(mothers, mother, father) + 2 * parents) / 4;
			return fatherRows[i]! + motherRows[k]! + (of.self * (1 + parents)) / 2 + of.within * within - now;
		})
	);
}

/** The part of the figure that a row like this unit's gives. */
function rowFigure(table: GroupKinship, row: Float64Array, unit: number | null, same: number): number {
	if (unit === null) return 0;
	let sum = 0;
	const own = table.between[unit]!;
	const before = Math.min(unit, row.length);
	for (let j = 0; j < before; j++) sum += row[j]! * own[j]!;
	for (let j = unit + 1; j < row.length; j++) if (row[j] !== 0) sum += row[j]! * table.between[j]![unit]!;
	if (unit < row.length) sum += row[unit]! * twoOf(table, unit, same);
	return sum;
}
