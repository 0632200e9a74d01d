import { groupKinship } from '#genetics/groups/groupKinship.ts';
import { inbreedingOf } from '#genetics/groups/inbreedingOf.ts';
import type { GroupKinship } from '#genetics/groups/table.ts';
import { isStanding } from '#club/lines/holdings.ts';
import type { ThingId } from '#records/entry.ts';
import { howManyFish, noFish } from '#records/fishCount.ts';
import { namesOf } from '#records/names.ts';
import type { ClubState, Fish, Group, ParentSet, Spawn } from '#records/state.ts';
import { bagSources } from '../bagSources.ts';
import { fishAt } from '../fishAt.ts';
import { generations } from '../generations.ts';
import { lineEvents, type LineEvents } from '../lineEvents.ts';
import { parentsOfBrood } from '../parentsOfBrood.ts';
import type { Family, FamilyGroup, FamilyMove, FamilyParents, FamilySpawn } from './family.ts';
import { familyMoves } from './familyMoves.ts';

/**
 * Family of a line: which groups are there, from whom and from where did their fish come?
 *
 * Every group of the line, and groups of other lines that its fish came from. Parents that nobody named stand as they
 * follow from where the mother lived, and say that they were derived. Figures are expectations; ranges are for the
 * questions that lead with them.
 * Cost: one table of the line, see groupKinship.
 *
 * @param events and `table`, where they are there already
 */
export function familyOf(
	state: ClubState,
	line: ThingId,
	events: LineEvents = lineEvents(state, line),
	table: GroupKinship = groupKinship(events.events)
): Family {
	const own = [...new Set(state.groups.values())].filter((group) => group.line === line);
	const moves = new Map<ThingId, FamilyMove[]>();
	const spawns: FamilySpawn[] = [];
	const spawnOf = new Map<ThingId, Spawn>();
	for (const spawn of state.spawns.values())
		if (spawn.brood && state.groups.get(spawn.brood)) spawnOf.set(spawn.brood, spawn);
	const groups = new Map<ThingId, Group>();
	const queue = [...own].sort(byAge);
	for (const group of queue) {
		if (groups.has(group.id)) continue;
		groups.set(group.id, group);
		const into = familyMoves(state, group, (bag) => bagSources(state, bag, own, group.id).possible);
		moves.set(group.id, into);
		const spawn = group.origin.from === 'brood' ? state.spawns.get(group.origin.spawn) : undefined;
		if (spawn?.seen) spawns.push(familySpawn(state, spawn, group, events, table));
		const from = [
			...into.map((move) => move.from),
			...(spawn ? [...spawn.fathers.of, ...spawn.mothers.of].map((parent) => parent.group) : [])
		];
		for (const id of from) {
			const other = state.groups.get(id);
			if (other && !groups.has(other.id)) queue.push(other);
		}
	}
	const allMoves = [...moves.values()].flat().filter((move) => groups.has(move.from));
	const ordered = parentsFirst([...groups.values()].sort(byAge), spawns, allMoves);
	const generation = generations(events.events);
	const names = namesOf(state, null);
	const rooms = [...new Set(ordered.flatMap((group) => group.room ?? []))];
	const place = new Map(ordered.map((group, i) => [group.id, i]));
	const at = (id: ThingId) => place.get(id) ?? 0;
	return {
		line,
		groups: ordered.map((group) => familyGroup(state, line, group, events, table, generation)),
		spawns: spawns.sort((a, b) => at(a.brood) - at(b.brood)),
		moves: allMoves.sort((a, b) => at(a.to) - at(b.to) || at(a.from) - at(b.from)),
		rooms: rooms
			.map((id) => ({ id, name: names.room(id) }))
			.sort((a, b) => a.name.localeCompare(b.name, 'en') || (a.id < b.id ? -1 : 1))
	};
}

function familyGroup(
	state: ClubState,
	line: ThingId,
	group: Group,
	events: LineEvents,
	table: GroupKinship,
	generation: ReadonlyMap<string, number>
): FamilyGroup {
	const names = namesOf(state, null);
	const units = (events.units.get(group.id) ?? []).filter((unit) => table.index.has(unit));
	const standing = standingOf(group);
	const began = fishAt(group, group.started?.when.last ?? 0);
	const last = lastFish(group);
	return {
		...{ id: group.id, name: names.group(group.id), line: group.line, ofThisLine: group.line === line },
		...{ known: group.known, room: group.room, roomName: group.room ? names.room(group.room) : '' },
		tank: group.tank,
		symbol: last.unsexed > 0 ? 'diamond' : oneSex(last),
		single: howManyFish(last) === 1,
		fish: standing === 'living' ? group.now.fish : noFish,
		certainty: group.now.certainty,
		began,
		standing,
		closed: group.closed !== null,
		suspectedMix: group.mixes.length > 0,
		from: group.origin.from,
		source: group.origin.from === 'founders' ? group.origin.source : '',
		at: group.started?.when.first ?? null,
		generation: Math.max(0, ...units.map((unit) => generation.get(unit) ?? 0)),
		inbreeding: units[0] === undefined ? null : inbreedingOf(table, units.slice(0, 1))
	};
}

function oneSex(fish: Fish): FamilyGroup['symbol'] {
	if (fish.males > 0 && fish.females === 0) return 'square';
	return fish.females > 0 && fish.males === 0 ? 'circle' : 'diamond';
}

/** The last count that found fish; none = nobody counted. */
function lastFish(group: Group): Fish {
	if (howManyFish(group.now.fish) > 0) return group.now.fish;
	return group.counts.findLast((count) => howManyFish(count.fish) > 0)?.fish ?? noFish;
}

const deaths = new Set(['died', 'put down', 'lost']);

function standingOf(group: Group): FamilyGroup['standing'] {
	if (group.now.certainty === 'not known' && !group.ended) return 'not known';
	if (isStanding(group)) return 'living';
	const losses = group.changes.filter((change) => howManyFish(change.fish) < 0);
	const last = losses.reduce<(typeof losses)[number] | null>(
		(best, each) => (!best || each.when.last >= best.when.last ? each : best),
		null
	);
	return last && deaths.has(last.why) ? 'dead' : 'gone';
}

function familySpawn(
	state: ClubState,
	spawn: Spawn,
	brood: Group,
	events: LineEvents,
	table: GroupKinship
): FamilySpawn {
	const parents = parentsOfBrood(state, spawn, brood.id);
	const side = (set: ParentSet, derived: boolean): FamilyParents => {
		const of = set.of.map((one) => ({
			group: state.groups.get(one.group)?.id ?? one.group,
			standing: one.standing
		}));
		const possible = of.filter((one) => one.standing !== 'ruled out');
		const certain = possible.length === 1 && possible[0]?.standing === 'seen';
		return { of, others: set.others, number: set.number, certain, derived };
	};
	const unit = (events.units.get(brood.id) ?? []).find((one) => table.index.has(one));
	return {
		...{ id: spawn.id, sort: spawn.sort, brood: brood.id, room: spawn.room },
		at: spawn.seen?.when.first ?? null,
		fathers: side(parents.fathers, parents.fathersDerived),
		mothers: side(parents.mothers, parents.mothersDerived),
		parentsRelated: unit === undefined ? null : Math.max(0, inbreedingOf(table, [unit]))
	};
}

function byAge(a: Group, b: Group): number {
	const [one, other] = [a.started?.when.last ?? 0, b.started?.when.last ?? 0];
	return one - other || (a.id < b.id ? -1 : 1);
}

/** In order of age, but never before a group that its fish came from, unless they go round in a circle. */
function parentsFirst(
	groups: readonly Group[],
	spawns: readonly FamilySpawn[],
	moves: readonly FamilyMove[]
): Group[] {
	const byId = new Map(groups.map((group) => [group.id, group]));
	const before = new Map<ThingId, ThingId[]>(groups.map((group) => [group.id, []]));
	for (const { brood, fathers, mothers } of spawns)
		before.get(brood)?.push(...[...fathers.of, ...mothers.of].map((one) => one.group));
	for (const { from, to } of moves) before.get(to)?.push(from);
	const placed = new Set<Group>();
	const underWay = new Set<Group>();
	const place = (group: Group) => {
		if (placed.has(group) || underWay.has(group)) return;
		underWay.add(group);
		for (const id of before.get(group.id) ?? []) {
			const other = byId.get(id);
			if (other) place(other);
		}
		underWay.delete(group);
		placed.add(group);
	};
	for (const group of groups) place(group);
	return [...placed];
}
