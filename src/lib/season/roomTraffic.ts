import { dayMs } from '#club/question.ts';
import { tanksFree, tanksTooOldDays } from '#club/rooms/tanksFree.ts';
import type { ThingId } from '#records/entry.ts';
import type { ClubState, Exchange } from '#records/state.ts';
import type { SeasonRoom } from '#planning/season/season.ts';
import type { SeasonSettings } from './seasonSettings.ts';

const yearDays = 365;

/**
 * Room traffic: how many bags can a room give and take in this plan, and how do giving and getting stand?
 *
 * The limits of the settings, less what open exchanges for the same meeting take up already. Free tanks as the planning
 * member says; else as the room said not too long ago, less what came since and what is promised to come; else as many
 * as bags may come in.
 */
export function roomTraffic(
	state: ClubState,
	asked: {
		readonly now: number;
		readonly promises: readonly Exchange[];
		readonly meeting: ThingId | null;
		readonly settings: SeasonSettings;
	}
): (room: ThingId) => Pick<SeasonRoom, 'bagsOut' | 'bagsIn' | 'tanksFree' | 'balance'> {
	const { settings } = asked;
	const out = new Map<ThingId, number>();
	const into = new Map<ThingId, number>();
	/** Bags promised to a room at any time, or on their way: each will stand in a tank. */
	const coming = new Map<ThingId, number>();
	const balance = new Map<ThingId, number>();
	const add = (to: Map<ThingId, number>, room: ThingId, more = 1) => to.set(room, (to.get(room) ?? 0) + more);
	for (const exchange of asked.promises) {
		const givers = new Set(exchange.gives.map(({ fromRoom }) => fromRoom));
		if (exchange.toRoom) add(coming, exchange.toRoom, givers.size);
		if (exchange.meeting !== asked.meeting) continue;
		for (const room of givers) add(out, room);
		if (exchange.toRoom) add(into, exchange.toRoom, givers.size);
	}
	for (const bag of new Set(state.bags.values())) {
		const at = bag.baggedAt?.last ?? bag.arrivals[0]?.when.last;
		const isOnItsWay = bag.stage === 'bagged' || bag.stage === 'handed over';
		if (isOnItsWay && bag.to?.to === 'room' && asked.now - (at ?? 0) < tanksTooOldDays * dayMs)
			add(coming, bag.to.room);
		if (at === undefined || asked.now - at > yearDays * dayMs || bag.givenBack) continue;
		if (bag.fromRoom) add(balance, bag.fromRoom);
		for (const room of new Set(bag.arrivals.map((arrival) => arrival.room))) add(balance, room, -1);
	}
	const saidOf = tanksFree(state, asked.now);
	return (room) => {
		const own = settings.limits[room] ?? {};
		const there = state.rooms.get(room);
		const said = there ? saidOf(there) : null;
		const isSaid = said !== null && said.age !== 'too old';
		const bagsIn = Math.max(0, (own.bagsIn ?? settings.perRoom.bagsIn) - (into.get(room) ?? 0));
		return {
			bagsOut: Math.max(0, (own.bagsOut ?? settings.perRoom.bagsOut) - (out.get(room) ?? 0)),
			bagsIn,
			tanksFree: own.tanksFree ?? (isSaid ? Math.max(0, said.left - (coming.get(room) ?? 0)) : bagsIn),
			balance: balance.get(room) ?? 0
		};
	};
}
