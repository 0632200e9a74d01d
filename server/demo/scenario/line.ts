/** A line of the demo club while its story runs, and where fish of it can be had. */
import type { ThingId } from '#records/entry.ts';
import type { FishLife } from './fishLife.ts';
import type { Holding } from './holding.ts';
import type { LinePlan, RoomKey } from './names.ts';
import { total, type Tank } from './tank.ts';
import type { World } from './world.ts';

export interface Line {
	readonly id: ThingId;
	readonly plan: LinePlan;
	readonly life: FishLife;
	readonly holdings: Holding[];
}

/** Fish that a holding can give: sexed young before unsexed ones, those before eggs and the breeding group. */
export interface Gift {
	readonly holding: Holding;
	readonly tank: Tank;
	readonly isEggs: boolean;
}

/** Fewer are no start for a group. */
const fewest = 4;

/** @returns the best that the room, or any other room than `to`, can give; null = nothing to spare */
export function giftOf(world: World, line: Line, to: RoomKey | null, from?: RoomKey): Gift | null {
	let best: (Gift & { worth: number }) | null = null;
	for (const holding of line.holdings) {
		if (holding.plan.room === to || (from && holding.plan.room !== from) || !holding.isHeard) continue;
		for (const tank of new Set([...holding.young, ...(holding.breeders ? [holding.breeders] : [])])) {
			const isBreeders = tank === holding.breeders;
			const isEggs = !isBreeders && line.life.peatDays !== undefined && !tank.isSexed;
			const spare = total(tank) - (isBreeders ? fewest : 0);
			if (tank.isOver || tank.shutUntil > world.time || spare < fewest) continue;
			const isReady = tank.isSexed || isEggs || world.time - tank.born > 20 * 86_400_000;
			if (!isReady) continue;
			const worth = (isBreeders ? 0 : isEggs ? 100 : tank.isSexed ? 300 : 200) + Math.min(spare, 50);
			if (!best || worth > best.worth) best = { holding, tank, isEggs, worth };
		}
	}
	return best;
}
