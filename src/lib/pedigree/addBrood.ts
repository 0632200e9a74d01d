import type { ParentSide, UnitId } from '#genetics/groups/event.ts';
import { weightsFromStanding, type StandingParent } from '#genetics/parents/weightsFromStanding.ts';
import type { ThingId } from '#records/entry.ts';
import type { Fish, Group, ParentSet, Spawn } from '#records/state.ts';
import { partsOf, type EventList, type Parts } from './eventList.ts';

/** What the brood needs of the events gathered so far. */
interface Gathered {
	readonly list: EventList;
	sexed(group: ThingId, at: number): Parts;
	cameFrom(group: ThingId, from: ThingId): void;
	readonly state: { readonly groups: ReadonlyMap<ThingId, Group> };
}

const standings = { seen: 'seen', likely: 'likely', possible: 'possible', 'ruled out': 'ruledOut' } as const;

/**
 * Adds a spawn: its possible fathers and mothers with default weights, and the young by sex.
 *
 * A parent whose set is empty is one of the group that the spawn was seen in, if that is known. Where nobody said
 * whether one or several were the parents, one is taken: the young are then at least as alike as they may be.
 */
export function addBrood(gathered: Gathered, brood: Group, spawn: Spawn, fish: Fish): Parts {
	const { list } = gathered;
	const at = spawn.seen?.when.last ?? 0;
	const fathers = sideOf(gathered, brood, spawn, spawn.fathers, 'males', at);
	const mothers = sideOf(gathered, brood, spawn, spawn.mothers, 'females', at);
	const shared = fathers.from.find(
		({ unit }) => unit !== null && mothers.from.some((one) => one.unit === unit)
	);
	if (shared?.unit) list.atLeastTwo(shared.unit);
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

function sideOf(
	gathered: Gathered,
	brood: Group,
	spawn: Spawn,
	set: ParentSet,
	sex: 'males' | 'females',
	at: number
): ParentSide {
	const listed =
		set.of.length || !spawn.inGroup ? set.of : [{ group: spawn.inGroup, standing: 'possible' as const }];
	const parents = new Map<UnitId, StandingParent>();
	for (const { group, standing } of listed) {
		const id = gathered.state.groups.get(group)?.id ?? group;
		if (id === brood.id) continue;
		const parts = gathered.sexed(id, at);
		const unit = parts[sex] ?? parts.unsexed ?? parts.males ?? parts.females;
		if (unit === undefined || parents.has(unit)) continue;
		if (standing !== 'ruled out') gathered.cameFrom(brood.id, id);
		parents.set(unit, { unit, standing: standings[standing] });
	}
	const from = weightsFromStanding([...parents.values()], !set.others && parents.size > 0);
	const side = from.length ? from : [{ unit: null, weight: 1 }];
	return { from: side, draw: set.number === 'several' ? 'several' : 'one' };
}
