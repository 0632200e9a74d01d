/** Exchanges of the demo club: proposed by the coordinator, answered by each side, done with a bag at a meeting. */
import { exchangeAnswered } from '#records/kinds/exchanges/answered.ts';
import { exchangeAsked } from '#records/kinds/exchanges/asked.ts';
import { exchangeCalledOff } from '#records/kinds/exchanges/calledOff.ts';
import { exchangeProposed } from '#records/kinds/exchanges/proposed.ts';
import type { ThingId } from '#records/entry.ts';
import { howManyFish } from '#records/fishCount.ts';
import type { Fish } from '#records/state.ts';
import { exchangeReasons, noReasons } from './names.ts';
import { type Gift, type HeldLine, giftOf } from '#server/demo/scenario/fish/gift.ts';
import type { Holding } from '#server/demo/scenario/fish/holding.ts';
import { take, total } from '#server/demo/scenario/fish/tank.ts';
import type { World } from './world.ts';

export interface Exchange {
	readonly id: ThingId;
	readonly line: HeldLine;
	readonly gift: Gift;
	readonly to: Holding;
	readonly fish: Fish;
	readonly meeting: ThingId | null;
}

/** How many fish go: a young group's six or so, or a few grown ones. */
export function fishToGive(world: World, gift: Gift): Fish {
	if (gift.isEggs) return take(gift.tank.fish, Math.floor(total(gift.tank) / 2), world);
	const isBreeders = gift.tank === gift.holding.breeders;
	// A breeding group keeps a pair for itself.
	const { males, females, unsexed } = gift.tank.fish;
	const free = isBreeders
		? { males: Math.max(0, males - 1), females: Math.max(0, females - 1), unsexed }
		: gift.tank.fish;
	const most = Math.min(isBreeders ? 4 : 9, total(gift.tank) - (isBreeders ? 3 : 1));
	return take(free, Math.max(2, world.dice.whole(Math.min(4, most), most)), world);
}

/** Proposes an exchange to a room. @returns null when no other room has fish to give */
export function propose(
	world: World,
	line: HeldLine,
	to: Holding,
	meeting: ThingId | null,
	asked: boolean
): Exchange | null {
	const gift = giftOf(world, line, to.plan.room);
	if (!gift) return null;
	const exchange = { id: world.newId(), line, gift, to, fish: fishToGive(world, gift), meeting };
	const gives = [{ fromRoom: gift.holding.roomId, group: gift.tank.id, fish: exchange.fish }];
	const body = {
		...{ exchange: exchange.id, line: line.id, gives, toRoom: to.roomId, meeting, note: '', asked },
		reason: world.dice.pick(exchangeReasons),
		...{ outcross: null, plan: null }
	};
	world.write(exchangeProposed, body, { by: world.member(line.plan.coordinator).id });
	return exchange;
}

export function ask(world: World, { id, line }: Exchange): void {
	world.write(exchangeAsked, { exchange: id, line: line.id }, { by: world.member(line.plan.coordinator).id });
}

export function answer(
	world: World,
	{ id, line }: Exchange,
	side: Holding,
	said: { answer: 'yes' | 'no' | 'later'; until?: string; byPhone?: boolean }
): void {
	const keeper = side.keeper();
	const coordinator = world.member(line.plan.coordinator).id;
	const byPhone = said.byPhone === true && coordinator !== keeper;
	const body = {
		...{ exchange: id, line: line.id, room: side.roomId, answer: said.answer, until: said.until ?? '' },
		reason: said.answer === 'yes' ? '' : world.dice.pick(noReasons)
	};
	world.write(exchangeAnswered, body, byPhone ? { by: coordinator, toldBy: keeper } : { by: keeper });
}

export function callOff(world: World, { id, line }: Exchange, reason: string): void {
	world.write(
		exchangeCalledOff,
		{ exchange: id, line: line.id, reason },
		{ by: world.member(line.plan.coordinator).id }
	);
}

/** Both sides say yes, within some days; now and then by phone. */
export function agree(world: World, exchange: Exchange, withinDays = 6): void {
	for (const side of [exchange.gift.holding, exchange.to])
		world.after(world.dice.whole(1, withinDays), () => {
			if (world.keepers(side.plan.room).length > 0)
				answer(world, exchange, side, { answer: 'yes', byPhone: world.dice.chance(0.2) });
		});
}

/** Whether the fish that were promised are still there to be given. */
export function isStillThere({ gift, fish }: Exchange): boolean {
	const { tank, holding } = gift;
	const has =
		tank.fish.males >= fish.males && tank.fish.females >= fish.females && tank.fish.unsexed >= fish.unsexed;
	return holding.isHeard && !tank.isOver && has && total(tank) - howManyFish(fish) >= 1;
}
