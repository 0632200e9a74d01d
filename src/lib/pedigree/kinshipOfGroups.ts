import { groupKinship } from '#genetics/groups/groupKinship.ts';
import { kinshipBetween } from '#genetics/groups/kinshipBetween.ts';
import { kinshipWithin } from '#genetics/groups/kinshipWithin.ts';
import type { UnitId } from '#genetics/groups/event.ts';
import type { GroupKinship } from '#genetics/groups/table.ts';
import { settleBroods } from '#genetics/parents/settleBroods.ts';
import { uncertainBroods, type Settled } from '#genetics/parents/uncertainBroods.ts';
import type { ThingId } from '#records/entry.ts';
import type { ClubState } from '#records/state.ts';
import { lineEvents, type LineEvents } from './lineEvents.ts';

/** One way in which one open thing may have been; `why` says which thing. */
export interface Way {
	readonly spawn: ThingId | null;
	/** The group whose origin is not known. */
	readonly group: ThingId | null;
	readonly table: GroupKinship;
	readonly units: ReadonlyMap<ThingId, readonly UnitId[]>;
}

export interface FigureOfGroups {
	readonly expected: number;
	readonly least: number;
	readonly greatest: number;
	/** What stretches the range most; null = nothing that one open thing alone could change. */
	readonly because: Pick<Way, 'spawn' | 'group'> | null;
	/** How many open things matter to the figure. */
	readonly open: number;
}

/** More ways than this are not all tried: the figure is then a range over the first of them, and says so. */
const mostWays = 600;

/**
 * Kinship of groups of one line, with the range over one open thing at a time.
 *
 * The table is built once with the default weights and once for every way in which one uncertain brood, one bag of
 * unsaid contents or one unknown founder group may have been, all others keeping their weights. Broods that are no
 * forebears of the groups asked about are left out: they cannot change the figure.
 * Cost: one table for each way; every figure reads them all.
 *
 * @param about groups that figures will be asked about
 */
export class KinshipOfGroups {
	readonly events: LineEvents;
	readonly #table: GroupKinship;
	readonly #ways: Way[] = [];
	/** False when there were too many ways to try all. */
	readonly complete: boolean;

	constructor(state: ClubState, line: ThingId, about: readonly ThingId[]) {
		this.events = lineEvents(state, line);
		this.#table = groupKinship(this.events.events);
		const { forebears, spawns } = this.#matter(about);
		let complete = true;
		const add = (make: () => Way) => {
			if (this.#ways.length < mostWays) this.#ways.push(make());
			else complete = false;
		};
		for (const { event, choices } of uncertainBroods(this.events.events)) {
			const spawn = this.events.spawnOf.get(event) ?? null;
			if (!spawn || !spawns.has(spawn)) continue;
			for (const choice of choices) add(() => this.#settled(event, choice, spawn));
		}
		for (const doubt of this.events.doubts) {
			if (!forebears.has(doubt.group)) continue;
			for (let way = 1; way < doubt.ways; way++)
				add(() => {
					const other = lineEvents(state, line, new Map([[doubt.group, way]]));
					return { spawn: null, group: doubt.group, table: groupKinship(other.events), units: other.units };
				});
		}
		this.complete = complete;
	}

	knows(group: ThingId): boolean {
		return (this.events.units.get(group)?.length ?? 0) > 0;
	}

	/** One fish of each group, groups on one side taken together: the inbreeding of their young. */
	between(these: readonly ThingId[], those: readonly ThingId[]): FigureOfGroups {
		return this.#figure((table, units) => {
			const ours = standing(table, unitsOf(units, these));
			const theirs = standing(table, unitsOf(units, those)).filter((unit) => !ours.includes(unit));
			return theirs.length ? kinshipBetween(table, ours, theirs) : within(table, ours);
		});
	}

	/** Two different fish of these groups together. */
	within(groups: readonly ThingId[]): FigureOfGroups {
		return this.#figure((table, units) => within(table, standing(table, unitsOf(units, groups))));
	}

	/** Groups from which a group's fish come, itself included, with the least number of steps back. */
	forebearsOf(group: ThingId): Map<ThingId, number> {
		const steps = new Map<ThingId, number>([[group, 0]]);
		for (const [id, step] of steps)
			for (const from of this.events.cameFrom.get(id) ?? []) if (!steps.has(from)) steps.set(from, step + 1);
		return steps;
	}

	#matter(about: readonly ThingId[]): { forebears: ReadonlySet<ThingId>; spawns: ReadonlySet<ThingId> } {
		const forebears = new Set(about.flatMap((group) => [...this.forebearsOf(group).keys()]));
		const broods = new Set<UnitId>();
		for (const group of forebears) broods.add(group);
		const spawns = new Set<ThingId>();
		for (const [place, spawn] of this.events.spawnOf) {
			const event = this.events.events[place];
			// The unit's name begins with the brood's id.
			if (
				event?.kind === 'spawn' &&
				event.young.some(({ unit }) => broods.has(unit.slice(0, unit.indexOf('/'))))
			)
				spawns.add(spawn);
		}
		return { forebears, spawns };
	}

	#settled(event: number, choice: Settled, spawn: ThingId): Way {
		const events = settleBroods(this.events.events, new Map([[event, choice]]));
		return { spawn, group: null, table: groupKinship(events), units: this.events.units };
	}

	#figure(
		of: (table: GroupKinship, units: ReadonlyMap<ThingId, readonly UnitId[]>) => number
	): FigureOfGroups {
		const expected = of(this.#table, this.events.units);
		let [least, greatest, stretch] = [expected, expected, 0];
		let because: FigureOfGroups['because'] = null;
		const open = new Set<ThingId>();
		for (const { spawn, group, table, units } of this.#ways) {
			const value = of(table, units);
			const apart = Math.abs(value - expected);
			if (apart > rounding) open.add(spawn ?? group ?? '');
			if (apart > stretch + rounding) [stretch, because] = [apart, { spawn, group }];
			least = Math.min(least, value);
			greatest = Math.max(greatest, value);
		}
		return { expected, least, greatest, because, open: open.size };
	}
}

/** Sums of weights end a little beside the fraction that is meant. */
const rounding = 1e-9;

function unitsOf(units: ReadonlyMap<ThingId, readonly UnitId[]>, groups: readonly ThingId[]): UnitId[] {
	return [...new Set(groups.flatMap((group) => units.get(group) ?? []))];
}

/** Units that hold fish; of groups that all fish have left, one unit stands for the fish that it last held. */
function standing(table: GroupKinship, units: readonly UnitId[]): UnitId[] {
	const held = units.filter((unit) => !table.emptied[table.index.get(unit) ?? -1]);
	return held.length ? held : units.slice(0, 1);
}

/** Two different fish; of a single fish, the fish with itself, which is what mating it to a copy would give. */
function within(table: GroupKinship, units: readonly UnitId[]): number {
	const fish = units.reduce((sum, unit) => sum + (table.count[table.index.get(unit) ?? -1] ?? 0), 0);
	const only = table.index.get(units[0] ?? '');
	if (fish < 2 && only !== undefined) return table.self[only] ?? 0;
	return kinshipWithin(table, units);
}
