/** Where fish of a line can be had. */
import type { Holding } from './holding.ts';
import type { Line } from './line.ts';
import type { RoomKey } from '#server/demo/scenario/names.ts';
import { total, type Tank } from './tank.ts';
import { dayMs, type World } from '#server/demo/scenario/world.ts';

/** A line with the rooms that hold it, or will, or did. */
export interface HeldLine extends Line {
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

/** Which fish will do: of one room, or of a sort. */
export interface Wish {
	readonly from?: RoomKey;
	readonly suits?: (tank: Tank) => boolean;
}

/** @returns the best that any other room than `to` can give; null = nothing to spare */
export function giftOf(
	world: World,
	line: HeldLine,
	to: RoomKey | null,
	{ from, suits }: Wish = {}
): Gift | null {
	let best: (Gift & { worth: number }) | null = null;
	for (const holding of line.holdings) {
		if (holding.plan.room === to || (from && holding.plan.room !== from) || !holding.isHeard) continue;
		for (const tank of new Set([...holding.young, ...(holding.breeders ? [holding.breeders] : [])])) {
			const isBreeders = tank === holding.breeders;
			const isEggs = !isBreeders && line.life.peatDays !== undefined && !tank.isSexed;
			const spare = total(tank) - (isBreeders ? fewest : 0);
			if (tank.isOver || tank.shutUntil > world.time || spare < fewest || suits?.(tank) === false) continue;
			const isReady = tank.isSexed || isEggs || world.time - tank.born > 20 * dayMs;
			if (!isReady) continue;
			const worth = (isBreeders ? 0 : isEggs ? 100 : tank.isSexed ? 300 : 200) + Math.min(spare, 50);
			if (!best || worth > best.worth) best = { holding, tank, isEggs, worth };
		}
	}
	return best;
}
