/** Bags of the demo club: packed, handed over, arrived, counted a week later; each side writes its own half. */
import { bagArrived } from '#records/kinds/bags/arrived.ts';
import { bagBagged } from '#records/kinds/bags/bagged.ts';
import { bagDayCount } from '#records/kinds/bags/dayCount.ts';
import { bagHandedOver } from '#records/kinds/bags/handedOver.ts';
import { groupCounted } from '#records/kinds/groups/counted.ts';
import { addFish, howManyFish, noFish } from '#records/fishCount.ts';
import type { EntryId, ThingId } from '#records/entry.ts';
import type { BagTo, Fish } from '#records/state.ts';
import type { Gift, HeldLine } from './gift.ts';
import { Holding } from './holding.ts';
import { newTank, type Tank } from './tank.ts';
import { dayMs, type World } from '#server/demo/scenario/world.ts';

export interface BagPlan {
	readonly line: HeldLine;
	readonly gift: Gift;
	readonly fish: Fish;
	/** A holding receives in its room; anybody else takes the fish out of the club's record. */
	readonly to: Holding | Exclude<BagTo, { to: 'room' }>;
	readonly meeting: ThingId | null;
	readonly exchange: ThingId | null;
	readonly note?: string;
	/** A label that was used before, by mistake; '' = none. */
	readonly number?: string;
}

export interface Bag {
	readonly id: ThingId;
	readonly number: string;
	readonly plan: BagPlan;
	readonly bagged: EntryId;
	readonly at: number;
}

/** What an entry says of whom a bag is for. */
export function bagTo(to: BagPlan['to']): BagTo {
	return to instanceof Holding ? { to: 'room', room: to.roomId } : to;
}

export function bagUp(world: World, plan: BagPlan): Bag {
	const { line, gift, fish, meeting, exchange, note = '' } = plan;
	const by = gift.holding.keeper();
	const number = plan.number ?? world.bagNumber(by);
	const id = world.newId();
	gift.tank.fish = addFish(gift.tank.fish, fish, -1);
	const body = {
		...{ bag: id, number, line: line.id, contents: [{ group: gift.tank.id, fish }], meeting, exchange, note },
		...{ fromRoom: gift.holding.roomId, to: bagTo(plan.to) }
	};
	const bagged = world.write(bagBagged, body, { by, ...hall(meeting) });
	return { id, number, plan, bagged, at: world.time };
}

/** There is no signal in the hall: what is written there reaches the club the next morning. */
const hall = (meeting: ThingId | null) => (meeting ? { offlineHours: 13 } : {});

export function handOver(world: World, bag: Bag, side: 'giver' | 'receiver'): EntryId {
	const { gift, to, meeting } = bag.plan;
	const by = side === 'receiver' && to instanceof Holding ? to.keeper() : gift.holding.keeper();
	const toRoom = to instanceof Holding ? to.roomId : null;
	return world.write(
		bagHandedOver,
		{ bag: bag.id, fromRoom: gift.holding.roomId, toRoom, meeting },
		{ by, ...hall(meeting) }
	);
}

/** @param differs the receiver counts other fish than the giver packed */
export function arrive(
	world: World,
	bag: Bag,
	dead: number,
	differs: Fish | null = null
): { entry: EntryId; tank: Tank } | null {
	const { line, gift, to } = bag.plan;
	if (!(to instanceof Holding) || world.keepers(to.plan.room).length === 0) return null;
	const alive = differs ?? without(bag.plan.fish, dead);
	const tank = newTank(world, {
		...{
			lineId: line.id,
			room: to.plan.room,
			fish: alive,
			born: gift.tank.born,
			shutUntil: world.time + 28 * dayMs
		},
		...{ isSexed: gift.tank.isSexed, metBefore: [{ tank: gift.tank, until: bag.at }, ...gift.tank.metBefore] }
	});
	const body = {
		...{
			bag: bag.id,
			room: to.roomId,
			group: tank.id,
			line: line.id,
			alive,
			dead,
			certainty: 'counted' as const
		},
		tank: 'quarantine'
	};
	const entry = world.write(bagArrived, body, { by: to.keeper() });
	to.receive(tank, gift.isEggs);
	return { entry, tank };
}

/** A week later: how many still live. One more may be gone by then; the group is counted with it. */
export function weekLater(world: World, bag: Bag, tank: Tank): void {
	const { to } = bag.plan;
	if (!(to instanceof Holding) || !to.isHeard || tank.isOver) return;
	const by = to.keeper();
	if (howManyFish(tank.fish) > 3 && world.dice.chance(0.15)) {
		tank.fish = without(tank.fish, 1);
		world.write(
			groupCounted,
			{ group: tank.id, room: to.roomId, fish: tank.fish, certainty: 'counted' },
			{ by }
		);
	}
	world.write(bagDayCount, { bag: bag.id, room: to.roomId, alive: howManyFish(tank.fish), note: '' }, { by });
}

/** A bag's whole way on one evening and the week after it. */
export function carry(world: World, plan: BagPlan): void {
	const bag = bagUp(world, plan);
	const evening = world.hour(world.time, 19);
	const { to } = plan;
	if (world.dice.chance(0.65))
		world.at(evening, () =>
			handOver(world, bag, to instanceof Holding && world.dice.chance(0.6) ? 'receiver' : 'giver')
		);
	if (!(to instanceof Holding)) return;
	world.at(evening + world.dice.whole(90, 170) * 60_000, () => {
		const arrived = arrive(world, bag, world.dice.chance(0.14) && howManyFish(plan.fish) > 3 ? 1 : 0);
		if (arrived && !plan.gift.isEggs && world.dice.chance(0.7))
			world.after(7, () => weekLater(world, bag, arrived.tank));
	});
}

export function without(fish: Fish, gone: number): Fish {
	const unsexed = Math.min(fish.unsexed, gone);
	const females = Math.min(fish.females, gone - unsexed);
	return addFish(fish, { ...noFish, unsexed, females, males: gone - unsexed - females }, -1);
}
