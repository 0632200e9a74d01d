import type { GroupEvent, ParentSide, UnitId } from '#genetics/groups/event.ts';
import { groupKinship } from '#genetics/groups/groupKinship.ts';
import type { Group } from '#records/state.ts';
import type { ClubState } from '#records/state.ts';
import type { LineKinship } from '../lineKinship.ts';
import { drawnTwice, meanSelf, weighed, type Counted } from './weighing.ts';

export interface AheadStep {
	/** 0 is now. */
	readonly generation: number;
	readonly diversity: number;
	readonly inbreeding: number;
}

const generationsAhead = 10;
/** More breeders of one sex than this are not kept by a room; own choice, a figure of one room is near it. */
const mostBreeders = 10;

/**
 * Ahead: what do the next ten generations bring if nothing changes?
 *
 * Every room breeds on with its own fish: all its males and all its females of now, ten of each at most, are parents
 * of as many again, and no fish move between rooms. Fish not sexed count half as males and half as females. Run
 * forward with the rules of the table on the rooms as they are, not by a formula. As expected; chance comes on top.
 * Source: Wright (1931), Genetics 16:97, as in `groupKinship`; the numbers of breeders are our own choice.
 * Cost: two rows for each room and generation.
 */
export function aheadOf(_state: ClubState, kinship: LineKinship, living: readonly Group[]): AheadStep[] {
	const rooms = new Map<string, Group[]>();
	for (const group of living)
		if (group.room) rooms.set(group.room, [...(rooms.get(group.room) ?? []), group]);
	const plans = [...rooms]
		.sort(([a], [b]) => (a < b ? -1 : 1))
		.map(([room, groups]) => planOf(room, kinship, groups));
	const breeding = plans.filter((plan) => plan.fathers.length > 0 && plan.mothers.length > 0);
	if (breeding.length === 0) return [];
	const now = kinship.fishOf(living.map((group) => group.id));
	const steps = [step(0, kinship.table, now)];
	let table = kinship.table;
	let parents = breeding.map(({ fathers, mothers }) => ({
		fathers: sideOf(fathers),
		mothers: sideOf(mothers)
	}));
	for (let generation = 1; generation <= generationsAhead; generation++) {
		const events = breeding.map((plan, i): GroupEvent => ({
			...{ kind: 'spawn', fathers: parents[i]!.fathers, mothers: parents[i]!.mothers },
			young: [
				{ unit: `${plan.room}+${generation}/males`, count: plan.males },
				{ unit: `${plan.room}+${generation}/females`, count: plan.females }
			]
		}));
		table = groupKinship(events, table);
		const born: Counted[] = events.flatMap((event) =>
			event.kind === 'spawn'
				? event.young.map(({ unit, count }) => ({ unit: table.index.get(unit)!, fish: count }))
				: []
		);
		steps.push(step(generation, table, born));
		parents = breeding.map((plan) => ({
			fathers: { from: [{ unit: `${plan.room}+${generation}/males`, weight: 1 }], draw: 'several' },
			mothers: { from: [{ unit: `${plan.room}+${generation}/females`, weight: 1 }], draw: 'several' }
		}));
	}
	return steps;
}

function step(generation: number, table: LineKinship['table'], fish: readonly Counted[]): AheadStep {
	return {
		generation,
		diversity: 1 - weighed(table, drawnTwice(fish)),
		inbreeding: Math.max(0, 2 * weighed(table, meanSelf(fish)) - 1)
	};
}

interface Plan {
	readonly room: string;
	readonly fathers: readonly (readonly [UnitId, number])[];
	readonly mothers: readonly (readonly [UnitId, number])[];
	readonly males: number;
	readonly females: number;
}

function planOf(room: string, kinship: LineKinship, groups: readonly Group[]): Plan {
	const fathers: (readonly [UnitId, number])[] = [];
	const mothers: (readonly [UnitId, number])[] = [];
	for (const group of groups)
		for (const unit of kinship.events.units.get(group.id) ?? []) {
			const fish = kinship.events.fishNow.get(unit) ?? 0;
			if (fish === 0) continue;
			if (unit.endsWith('/males')) fathers.push([unit, fish]);
			else if (unit.endsWith('/females')) mothers.push([unit, fish]);
			else if (fish > 1 && kinship.table.count[kinship.table.index.get(unit) ?? -1]! > 1) {
				fathers.push([unit, fish / 2]);
				mothers.push([unit, fish / 2]);
			}
		}
	const of = (side: typeof fathers) =>
		Math.min(mostBreeders, Math.max(1, Math.round(side.reduce((sum, [, fish]) => sum + fish, 0))));
	return { room, fathers, mothers, males: of(fathers), females: of(mothers) };
}

function sideOf(units: Plan['fathers']): ParentSide {
	const all = units.reduce((sum, [, fish]) => sum + fish, 0);
	return { from: units.map(([unit, fish]) => ({ unit, weight: fish / all })), draw: 'several' };
}
