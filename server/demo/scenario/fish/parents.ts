/** What a keeper can say of a brood's mothers and fathers: nearly always a set, seldom one fish. */
import type { ParentSet, PossibleParent } from '#records/state.ts';
import type { FishLife } from './fishLife.ts';
import type { Tank } from './tank.ts';
import { dayMs, type World } from '#server/demo/scenario/world.ts';

export interface Parents {
	readonly mothers: ParentSet;
	readonly fathers: ParentSet;
}

/** @param beside another grown group of the line in the same room, whose males may have got in */
export function parentsSeen(world: World, tank: Tank, life: FishLife, beside: Tank | null): Parents {
	const mothers: ParentSet = {
		of: [{ group: tank.id, standing: tank.fish.females === 1 ? 'seen' : 'possible' }],
		others: false,
		number: tank.fish.females === 1 ? 'one' : life.sort === 'drop' ? 'one' : 'not known'
	};
	return {
		mothers,
		fathers: life.storedSpermDays > 0 ? storedSperm(world, tank, life) : fathersInWater(world, tank, beside)
	};
}

/** Livebearers: the males she lives with, and every male whose sperm she may still carry. */
function storedSperm(world: World, tank: Tank, life: FishLife): ParentSet {
	const since = world.time - life.storedSpermDays * dayMs;
	const before = new Set(tank.metBefore.filter(({ until }) => until >= since).map((met) => met.tank.id));
	before.delete(tank.id);
	const of: PossibleParent[] = [...before]
		.slice(-6)
		.map((group) => ({ group, standing: tank.hadMales ? 'possible' : 'likely' }));
	if (tank.hadMales || of.length === 0)
		of.unshift({ group: tank.id, standing: tank.fish.males > 0 ? 'likely' : 'possible' });
	return { of, others: world.dice.chance(0.25), number: of.length > 1 ? 'several' : 'not known' };
}

function fathersInWater(world: World, tank: Tank, beside: Tank | null): ParentSet {
	// "One of these": a male of either group, and nobody saw which.
	if (beside && world.dice.chance(0.3)) {
		const either = [tank, beside].map(({ id }): PossibleParent => ({ group: id, standing: 'possible' }));
		return { of: either, others: false, number: 'one' };
	}
	if (tank.fish.males === 1)
		return { of: [{ group: tank.id, standing: 'seen' }], others: false, number: 'one' };
	if (world.dice.chance(0.1)) return { of: [], others: true, number: 'not known' };
	return {
		of: [{ group: tank.id, standing: 'possible' }],
		others: false,
		number: world.dice.chance(0.5) ? 'several' : 'not known'
	};
}
