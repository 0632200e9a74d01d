import type { GenerationsEvent, GroupEvent, OneOfEvent, ParentSide, UnitId } from './event.ts';
import type { GroupKinship } from './table.ts';

/** What can be wrong with one event; `ids` are the units that it concerns. */
export interface GroupEventProblem {
	readonly code:
		| 'unitTwice' // a unit is named as new, but has been there before
		| 'unitUnknown' // a unit is used before anything told of it
		| 'unitEmptied' // fish are taken from, or counted in, a unit that all fish have left
		| 'countNotWhole' // a count is not a whole number of at least 1 (of fish that are left: at least 0)
		| 'notEnoughFish' // more fish leave than the unit has, or one fish is father and mother
		| 'nothingNamed' // a brood without young, a side without candidates, a merge of nothing
		| 'candidateTwice' // one unit stands twice on a side, or twice in a merge
		| 'breedersNotFit' // fewer than one breeder, or more than the unit has fish, or with one parent for all
		| 'sidesOverlap' // the fathers and mothers of a colony share some units but not all
		| 'unitsNotMatched' // a possible source does not name one unit for each of the new units
		| 'weightsNotOne' // the weights of a side are negative or do not sum to 1
		| 'nameNeedsOne' // a parent can be named as one fish only if it is one for the whole brood
		| 'guessNotSaid' // a greatest kinship is given for founders that are not assumed
		| 'notAShare'; // a kinship or an inbreeding outside 0 to 1
	readonly ids: readonly UnitId[];
}

/** Weights are often typed as decimals: 0.1 + 0.2 + 0.7 must pass, a forgotten candidate must not. */
const weightTolerance = 1e-6;

/**
 * Problems of group events: does this list of events fit together, and if not, why?
 *
 * Goes through the events in order and keeps only which units exist and how many fish they hold. All problems
 * are returned, not the first.
 * Source: none needed, these are the conditions under which `groupKinship` means something.
 * Cost: O(events + candidates).
 *
 * @param events what happened, parents before their young
 * @param earlier the table that the events go on from, if any
 * @returns problems in order of the events; empty when all is well
 * @example
 * groupEventProblems([{ kind: 'split', unit: 'b', from: 'a', count: 1 }]) // => [{ code: 'unitUnknown', ids: ['a'] }]
 */
export function groupEventProblems(
	events: readonly GroupEvent[],
	earlier?: Pick<GroupKinship, 'units' | 'count' | 'emptied'>
): GroupEventProblem[] {
	const problems: GroupEventProblem[] = [];
	/** Fish in each unit; 0 when all have left. */
	const held = new Map<UnitId, number>();
	earlier?.units.forEach((unit, i) => held.set(unit, earlier.emptied[i] ? 0 : earlier.count[i]!));
	/** Parents may be emptied units: young can be born or told of after their parents moved on. */
	const mayBeParent = new Map<UnitId, number>();
	earlier?.units.forEach((unit, i) => mayBeParent.set(unit, earlier.count[i]!));

	const complain = (code: GroupEventProblem['code'], ...ids: UnitId[]) => problems.push({ code, ids });
	const isCount = (count: number) => Number.isInteger(count) && count >= 1;
	const isShare = (share: number) => share >= 0 && share <= 1;
	const set = (unit: UnitId, count: number) => {
		held.set(unit, count);
		if (count > 0) mayBeParent.set(unit, count);
	};
	const begin = (unit: UnitId, count: number) => {
		if (held.has(unit)) complain('unitTwice', unit);
		if (!isCount(count)) complain('countNotWhole', unit);
		set(unit, count);
	};
	/** Fish now in a unit that events change, or 0 with the reason told. */
	const standing = (unit: UnitId) => {
		const count = held.get(unit);
		if (count === undefined) complain('unitUnknown', unit);
		else if (count === 0) complain('unitEmptied', unit);
		return count ?? 0;
	};
	const checkSide = (side: ParentSide, other: ParentSide) => {
		const known = side.from.flatMap(({ unit }) => (unit === null ? [] : [unit]));
		if (side.from.length === 0) complain('nothingNamed');
		if (new Set(side.from.map(({ unit }) => unit)).size < side.from.length)
			complain('candidateTwice', ...known);
		const total = side.from.reduce((sum, { weight }) => sum + weight, 0);
		if (side.from.some(({ weight }) => !isShare(weight)) || !(Math.abs(total - 1) <= weightTolerance))
			complain('weightsNotOne', ...known);
		for (const { unit, breeders } of side.from) {
			if (breeders === undefined) continue;
			const most = unit === null ? 0 : (mayBeParent.get(unit) ?? Infinity);
			if (!(breeders >= 1 && breeders <= most) || side.draw === 'one')
				complain('breedersNotFit', ...(unit === null ? [] : [unit]));
		}
		for (const unit of known) {
			const count = mayBeParent.get(unit);
			if (count === undefined) complain('unitUnknown', unit);
			else if (count < 2 && other.from.some((share) => share.unit === unit)) complain('notEnoughFish', unit);
		}
		if (side.name !== undefined && side.draw === 'several') complain('nameNeedsOne', side.name);
	};

	const checkOneOf = (event: OneOfEvent) => {
		if (event.units.length === 0 || event.from.length === 0) complain('nothingNamed');
		for (const { units } of event.from) {
			if (units.length !== event.units.length) complain('unitsNotMatched', ...units);
			for (const unit of units) standing(unit);
		}
		const total = event.from.reduce((sum, { weight }) => sum + weight, 0);
		if (event.from.some(({ weight }) => !isShare(weight)) || !(Math.abs(total - 1) <= weightTolerance))
			complain('weightsNotOne', ...event.from.flatMap(({ units }) => units));
		for (const { unit, count } of event.units) begin(unit, count);
	};
	const checkGenerations = (event: GenerationsEvent) => {
		const sides = [event.fathers, event.mothers];
		if (sides.some((side) => side.length === 0) || event.young.length === 0) complain('nothingNamed');
		const shared = event.fathers.filter((unit) => event.mothers.includes(unit));
		for (const side of sides) {
			if (new Set(side).size < side.length) complain('candidateTwice', ...side);
			if (shared.length > 0 && shared.length < side.length) complain('sidesOverlap', ...shared);
		}
		const all = [...new Set(sides.flat())];
		const count = all.reduce((sum, unit) => sum + standing(unit), 0);
		if (shared.length > 0 && count < 2) complain('notEnoughFish', ...shared);
		if (![event.males, event.females].every((breeders) => breeders >= 1 && breeders < Infinity))
			complain('breedersNotFit', ...all);
		if (!isCount(event.generations)) complain('countNotWhole', ...event.young.map(({ unit }) => unit));
		for (const unit of all) set(unit, 0);
		for (const { unit, count } of event.young) begin(unit, count);
	};

	for (const event of events) {
		if (event.kind === 'founders') {
			for (const { unit, kinship } of event.related ?? []) {
				if (!held.has(unit)) complain('unitUnknown', unit);
				if (!isShare(kinship)) complain('notAShare', event.unit, unit);
			}
			if (!isShare(event.within ?? 0) || !isShare(event.inbreeding ?? 0)) complain('notAShare', event.unit);
			if (!isShare(event.atMost ?? 0)) complain('notAShare', event.unit);
			if (event.atMost !== undefined && !event.assumed) complain('guessNotSaid', event.unit);
			begin(event.unit, event.count);
		} else if (event.kind === 'spawn') {
			checkSide(event.fathers, event.mothers);
			checkSide(event.mothers, event.fathers);
			if (event.fathers.name !== undefined) begin(event.fathers.name, 1);
			if (event.mothers.name !== undefined) begin(event.mothers.name, 1);
			if (event.young.length === 0) complain('nothingNamed');
			for (const { unit, count } of event.young) begin(unit, count);
		} else if (event.kind === 'oneOf') checkOneOf(event);
		else if (event.kind === 'generations') checkGenerations(event);
		else if (event.kind === 'split') {
			const count = standing(event.from);
			begin(event.unit, event.count);
			if (count > 0 && event.count > count) complain('notEnoughFish', event.from);
			set(event.from, Math.max(0, count - event.count));
		} else if (event.kind === 'merge') {
			if (event.of.length === 0) complain('nothingNamed', event.unit);
			if (new Set(event.of).size < event.of.length) complain('candidateTwice', ...event.of);
			const count = event.of.reduce((sum, unit) => sum + standing(unit), 0);
			for (const unit of event.of) set(unit, 0);
			begin(event.unit, Math.max(1, count));
		} else {
			standing(event.unit);
			if (!isCount(event.count) && event.count !== 0) complain('countNotWhole', event.unit);
			set(event.unit, event.count);
		}
	}
	return problems;
}
