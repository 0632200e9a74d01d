import type { PossibleBag, SeasonProblem } from './season.ts';
import { isEmpty } from './shares.ts';
import { trafficOf } from './traffic.ts';
import { wishesNotKept } from './wishesKept.ts';

/** Something that forbids a choice of bags. */
export interface Stop {
	readonly stop:
		| 'closed'
		| 'apart'
		| 'ownRoom'
		| 'otherLine'
		| 'tooFewFish'
		| 'bagsIn'
		| 'bagsOut'
		| 'tanks'
		| 'banned'
		| 'tooClose'
		| 'wish';
	readonly room?: number;
	readonly source?: number;
	/** The key of the bag. */
	readonly bag?: string;
	/** The id of a wish that is not kept. */
	readonly wish?: string;
}

/** What forbids one bag by itself, whatever else travels; relatedness left out. */
export function stopsOfBag(problem: SeasonProblem, bag: PossibleBag): Stop[] {
	const { rooms, apart, outcrosses, sources } = problem;
	const { line, room } = problem.holdings[bag.holding]!;
	const stops: Stop[] = [];
	const add = (stop: Stop['stop'], more: Partial<Stop> = {}) => stops.push({ stop, bag: bag.key, ...more });
	if (rooms[room]!.isClosed) add('closed', { room });
	for (const { source, fish } of bag.gives) {
		const from = sources[source]!;
		if (rooms[from.room]!.isClosed) add('closed', { room: from.room, source });
		if (from.room === room) add('ownRoom', { room, source });
		if (apart.some(([a, b]) => (a === from.room && b === room) || (b === from.room && a === room)))
			add('apart', { room: from.room, source });
		const isPlanned = ([out, to, into = room]: SeasonProblem['outcrosses'][number]) =>
			out === from.line && to === line && into === room;
		if (from.line !== line && !outcrosses.some(isPlanned)) add('otherLine', { source });
		if (
			fish.males > from.spare.males ||
			fish.females > from.spare.females ||
			fish.unsexed > from.spare.unsexed
		)
			add('tooFewFish', { source });
	}
	if (problem.banned.includes(bag.key)) add('banned');
	return stops;
}

/**
 * What forbids these bags, chosen by hand? Empty = they may be.
 *
 * Cost: bags x (apart + banned) + rooms + sources.
 */
export function seasonStops(problem: SeasonProblem, bags: readonly PossibleBag[]): Stop[] {
	const stops = bags.flatMap((bag) => {
		const own = stopsOfBag(problem, bag);
		const isTooClose = bag.mates.expected >= problem.tooClose && !bag.leastBad;
		return isTooClose ? [...own, { stop: 'tooClose', bag: bag.key } as const] : own;
	});
	const { out, into } = trafficOf(problem, bags);
	for (const [room, { bagsIn, bagsOut, tanksFree }] of problem.rooms.entries()) {
		if (into[room]! > bagsIn) stops.push({ stop: 'bagsIn', room });
		if (into[room]! > tanksFree) stops.push({ stop: 'tanks', room });
		if (out[room]! > bagsOut) stops.push({ stop: 'bagsOut', room });
	}
	for (const [source, { spare }] of problem.sources.entries()) {
		const given = bags.flatMap(({ gives }) => gives.filter((give) => give.source === source));
		const all = (of: 'males' | 'females' | 'unsexed') => given.reduce((sum, { fish }) => sum + fish[of], 0);
		const isShort = (['males', 'females', 'unsexed'] as const).some((of) => all(of) > spare[of]);
		// One bag alone that asks too much has said so already.
		if (isShort && !stops.some((one) => one.stop === 'tooFewFish' && one.source === source))
			stops.push({ stop: 'tooFewFish', source });
	}
	for (const wish of wishesNotKept(problem, bags)) stops.push({ stop: 'wish', wish });
	return stops;
}

/** Whether two bags to one holding go together: with fish there, newcomers are of one sex; a founding stands alone. */
export const goTogether = (problem: SeasonProblem, one: PossibleBag, other: PossibleBag): boolean =>
	one.holding !== other.holding ||
	(!isEmpty(problem.holdings[one.holding]!) && kindOf(one) === kindOf(other));

export type Kind = 'males' | 'females' | 'unsexed' | 'mixed';

/** Of which sex the fish of a bag are. */
export function kindOf({ gives }: PossibleBag): Kind {
	const all = (of: 'males' | 'females' | 'unsexed') => gives.some(({ fish }) => fish[of] > 0);
	const kinds = (['males', 'females', 'unsexed'] as const).filter(all);
	return kinds.length === 1 ? kinds[0]! : 'mixed';
}
