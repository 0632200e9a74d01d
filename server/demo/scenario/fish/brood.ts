/** A brood from eggs or drop to grown fish; eggs of annual killifish rest in peat first. */
import { groupEggsStored } from '#records/kinds/groups/eggsStored.ts';
import { spawnParentsSaid } from '#records/kinds/spawns/parentsSaid.ts';
import type { FishLife } from './fishLife.ts';
import { count, endGroup, loseUnseen, nameGroup, reachStage, tellApart, total, type Tank } from './tank.ts';
import { dayMs, dayOf, type World } from '#server/demo/scenario/world.ts';

/** Stage by stage, with the losses that nobody notices until the next count. */
export function raise(
	world: World,
	life: FishLife,
	brood: Tank,
	isThere: () => boolean,
	grown: () => void
): void {
	for (const { stage, day, ofTen } of life.stages) {
		const step = () => {
			if (!isThere()) return;
			loseUnseen(world, brood, ofTen);
			if (total(brood) < 2) return endGroup(world, brood, 'died');
			if (stage === 'sexed') tellApart(world, brood);
			if (stage === 'sexed' || world.dice.chance(0.62)) reachStage(world, brood, stage);
			if (stage === 'sexed') count(world, brood);
			else if (world.dice.chance(0.28)) count(world, brood, 'about');
			if (stage === 'growing on' && world.dice.chance(0.2)) nameGroup(world, brood);
		};
		if (day === 0) step();
		else world.after(day + world.dice.whole(0, 3), step);
	}
	world.after(life.matureDays, grown);
}

/** Eggs go into damp peat: an egg bag with its days to check and to wet. */
export function storeEggs(
	world: World,
	life: FishLife,
	eggs: Tank,
	isThere: () => boolean,
	wetted: () => void
): void {
	const [soonest, latest] = life.peatDays ?? [100, 150];
	const days = world.dice.whole(soonest, latest);
	world.after(1, () => {
		if (!isThere()) return;
		const due = (day: number) => dayOf(world.time + day * dayMs);
		const body = {
			...{ group: eggs.id, room: world.room(eggs.room).id, label: `egg bag ${dayOf(eggs.born).slice(2, 7)}` },
			...{ checkDue: due(days - 25), wetDue: due(days) }
		};
		world.write(groupEggsStored, body, { by: world.keeper(eggs.room) });
	});
	world.after(days + world.dice.whole(0, 12), () => isThere() && wetted());
}

type ParentsSaid = Parameters<typeof spawnParentsSaid.sentence>[0];

/** Weeks later the young tell more of their fathers than anybody saw. */
export function thinkAgain(
	world: World,
	brood: Tank,
	{ spawn, mothers, fathers }: Pick<ParentsSaid, 'spawn' | 'mothers' | 'fathers'>,
	isHeard: () => boolean
): void {
	if (fathers.of.length < 2 || !world.dice.chance(0.35)) return;
	world.after(world.dice.whole(40, 90), () => {
		if (!isHeard()) return;
		const of = fathers.of.map((father, i) => ({
			...father,
			standing: i === 1 ? ('ruled out' as const) : ('likely' as const)
		}));
		const body = { spawn, room: world.room(brood.room).id, mothers, fathers: { ...fathers, of } };
		world.write(spawnParentsSaid, body, { by: world.keeper(brood.room) });
	});
}
