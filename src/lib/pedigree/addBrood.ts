import type { ParentSide, UnitId } from '#genetics/groups/event.ts';
import { weightsFromStanding, type StandingParent } from '#genetics/parents/weightsFromStanding.ts';
import type { ThingId } from '#records/entry.ts';
import { dayMs } from '#club/question.ts';
import type { ClubState, Fish, Group, ParentSet, Spawn } from '#records/state.ts';
import { partFor, partsOf, type EventList, type Parts } from './eventList.ts';
import { parentsOfBrood } from './parentsOfBrood.ts';

/** What the brood needs of the events gathered so far. */
export interface BroodGathering {
	readonly list: EventList;
	sexed(group: ThingId, at: number): Parts;
	cameFrom(group: ThingId, from: ThingId): void;
	/** The unknown male that a mother's group had met before it came: one unit for all its broods. */
	readonly outsideMales: Map<ThingId, UnitId>;
	readonly state: ClubState;
}

const standings = { seen: 'seen', likely: 'likely', possible: 'possible', 'ruled out': 'ruledOut' } as const;

/**
 * Adds a spawn: its possible fathers and mothers with default weights, and the young by sex.
 *
 * Where nobody said whether one or several were the parents, see `parentsOfBrood`. Fathers who are not listed are
 * fish from outside, unrelated to all; of livebearers that were mated before they came it is the same outside male for
 * all broods of the group inside the window, since one male's sperm is stored.
 */
export function addBrood(gathered: BroodGathering, brood: Group, spawn: Spawn, fish: Fish): Parts {
	const { list, state } = gathered;
	const at = spawn.seen?.when.last ?? 0;
	const parents = parentsOfBrood(state, spawn, brood.id);
	let mothers = sideOf(gathered, brood, parents.mothers, 'females', at);
	let fathers = sideOf(gathered, brood, parents.fathers, 'males', at);
	const mother = parents.mothers.of.length === 1 ? parents.mothers.of[0]?.group : undefined;
	if (mother && parents.windowDays > 0)
		fathers = withStoredSperm(gathered, fathers, mother, at, parents.windowDays);
	[fathers, mothers] = apart(list, fathers, mothers);
	for (const { unit } of fathers.from) {
		if (unit === null || !has(mothers, unit) || list.countOf(unit) > 1) continue;
		// The last of a unit that has moved on: its fish are now in another.
		const now = list.standing(unit);
		[fathers, mothers] = [instead(fathers, unit, now), instead(mothers, unit, now)];
		if (has(fathers, now) && has(mothers, now)) list.atLeastTwo(now);
	}
	const units = list.unitsFor(brood.id, fish);
	const place = list.push({
		kind: 'spawn',
		fathers,
		mothers,
		young: units.map(({ unit, count }) => ({ unit, count }))
	});
	list.spawnOf.set(place, spawn.id);
	for (const { unit, count } of units) list.begin(unit, count);
	return partsOf(units);
}

/**
 * One fish is not father and mother of the same young: who is surely the one is not the other. Of two single fish that
 * may each be either, it does not matter which is which.
 */
function apart(list: EventList, fathers: ParentSide, mothers: ParentSide): [ParentSide, ParentSide] {
	const both = fathers.from.flatMap(({ unit }) =>
		unit !== null && list.countOf(unit) < 2 && has(mothers, unit) ? [unit] : []
	);
	const [first, second] = both;
	if (second !== undefined && both.length === 2 && fathers.from.length === 2 && mothers.from.length === 2)
		return [only(fathers, first!), only(mothers, second)];
	const without = (side: ParentSide, other: ParentSide): ParentSide => {
		const sure = other.from.length === 1 ? other.from[0]!.unit : null;
		const from = side.from.filter(({ unit }) => unit === null || unit !== sure || !both.includes(unit));
		const all = from.reduce((sum, { weight }) => sum + weight, 0);
		return all === 0
			? side
			: { ...side, from: from.map((share) => ({ ...share, weight: share.weight / all })) };
	};
	const fewer = without(fathers, mothers);
	return [fewer, without(mothers, fewer)];
}

function only(side: ParentSide, unit: UnitId): ParentSide {
	return { ...side, from: [{ unit, weight: 1 }] };
}
function instead(side: ParentSide, unit: UnitId, other: UnitId): ParentSide {
	if (unit === other) return side;
	const taken = side.from.find((share) => share.unit === unit)?.weight ?? 0;
	const rest = side.from.filter((share) => share.unit !== unit && share.unit !== other);
	const weight = taken + (side.from.find((share) => share.unit === other)?.weight ?? 0);
	return { ...side, from: [...rest, { unit: other, weight }] };
}
function has(side: ParentSide, unit: UnitId): boolean {
	return side.from.some((share) => share.unit === unit);
}

function sideOf(
	gathered: BroodGathering,
	brood: Group,
	set: ParentSet,
	sex: 'males' | 'females',
	at: number
): ParentSide {
	const parents = new Map<UnitId, StandingParent>();
	for (const { group, standing } of set.of) {
		const id = gathered.state.groups.get(group)?.id ?? group;
		if (id === brood.id) continue;
		const unit = partFor(gathered.sexed(id, at), sex);
		if (unit === undefined || parents.has(unit)) continue;
		if (standing !== 'ruled out') gathered.cameFrom(brood.id, id);
		parents.set(unit, { unit, standing: standings[standing] });
	}
	const from = weightsFromStanding([...parents.values()], !set.others && parents.size > 0);
	const side = from.length ? from : [{ unit: null, weight: 1 }];
	return { from: side, draw: set.number === 'several' ? 'several' : 'one' };
}

/** The outside father of a group that arrived less than the window ago is one male, the same for all its broods. */
function withStoredSperm(
	gathered: BroodGathering,
	fathers: ParentSide,
	mother: ThingId,
	at: number,
	windowDays: number
): ParentSide {
	const group = gathered.state.groups.get(mother);
	const began = group?.started?.when.last;
	const isOld = began === undefined || at - began > windowDays * dayMs;
	if (!group || isOld || !fathers.from.some(({ unit }) => unit === null)) return fathers;
	let male = gathered.outsideMales.get(group.id);
	if (male === undefined) {
		male = gathered.list.fresh(group.id, 'outside');
		gathered.list.push({ kind: 'founders', unit: male, count: 1 });
		gathered.list.begin(male, 1);
		gathered.outsideMales.set(group.id, male);
	}
	const known = male;
	return {
		...fathers,
		from: fathers.from.map((share) => (share.unit === null ? { ...share, unit: known } : share))
	};
}
