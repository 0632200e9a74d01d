import { exchangeStage } from '#club/exchanges/exchangeStage.ts';
import { bagKey } from '#planning/season/bagKey.ts';
import type { ThingId } from '#records/entry.ts';
import type { ClubState, Exchange } from '#records/state.ts';
import { planStep, type PlanStep } from './planStep.ts';
import { exchangesByPlan } from './plansList.ts';
import type { SeasonAsking } from './seasonAsking.ts';
import { seasonProblem } from './seasonProblem.ts';
import type { SeasonSettings } from './seasonSettings.ts';
import type { SeasonAsked } from './seasonWords.ts';

export interface PlanRepair {
	readonly settings: SeasonSettings;
	/** Exchanges that stand, by the key of their bag: they need not be sent again. */
	readonly stands: Readonly<Record<string, ThingId>>;
}

/**
 * Repair settings: with which settings does the solver fill the holes of a plan and leave what stands?
 *
 * Bags that are planned, asked or agreed are locked; what was declined is ruled out for that room; a room that said
 * no to all that it was asked gives and gets nothing; rooms that have had their bag take one fewer.
 *
 * @param args.from what the plan was made with, where the device still has it
 * @returns null = no such plan
 */
export function repairSettings(
	state: ClubState,
	args: { readonly plan: ThingId; readonly from: SeasonSettings },
	asking: SeasonAsking
): PlanRepair | null {
	const exchanges = exchangesByPlan(state).get(args.plan);
	if (!exchanges) return null;
	const steps = new Map<Exchange, PlanStep>(
		exchanges.map((one) => [one, planStep(exchangeStage(state, one, asking.now).word)])
	);
	const settings: SeasonSettings = {
		...args.from,
		lines: [
			...new Set(exchanges.flatMap(({ line, outcross }) => [line ?? [], outcross ?? []].flat()))
		].sort(),
		outcrosses: crossesLeft(exchanges, steps, args.from),
		meeting: exchanges.find(({ meeting }) => meeting)?.meeting ?? args.from.meeting,
		locked: [],
		declined: [...args.from.declined, ...declinedBy(exchanges)],
		without: [...new Set([...args.from.without, ...refusing(exchanges)])].sort(),
		limits: limitsLeft(exchanges, steps, args.from),
		repairs: args.plan
	};
	const { problem } = seasonProblem(state, { settings }, asking);
	const stands: Record<string, ThingId> = {};
	for (const [exchange, step] of steps) {
		const isUnbagged = exchange.bags.length === 0;
		if (!['planned', 'asked', 'agreed'].includes(step) || !isUnbagged) continue;
		const key = keyOf(problem, exchange);
		if (key) stands[key] = exchange.id;
	}
	return { settings: { ...settings, locked: Object.keys(stands).sort() }, stands };
}

/** The key of the bag that an exchange stands for; null = its fish cannot be given any more. */
function keyOf(problem: SeasonAsked['problem'], exchange: Exchange): string | null {
	const holding = problem.holdings.findIndex(
		({ line, room }) =>
			problem.lines[line]!.id === (exchange.outcross ?? exchange.line) &&
			problem.rooms[room]!.id === exchange.toRoom
	);
	const gives = exchange.gives.map(({ group, fish }) => ({
		source: problem.sources.findIndex(({ id }) => id === group),
		fish
	}));
	return holding < 0 || gives.some(({ source }) => source < 0) ? null : bagKey(problem, { gives, holding });
}

function declinedBy(exchanges: readonly Exchange[]): { group: ThingId; room: ThingId }[] {
	return exchanges.flatMap((exchange) =>
		exchange.stage === 'declined'
			? exchange.gives.flatMap(({ group }) =>
					group && exchange.toRoom ? [{ group, room: exchange.toRoom }] : []
				)
			: []
	);
}

/** Rooms that said no to all that they were asked. */
function refusing(exchanges: readonly Exchange[]): ThingId[] {
	const asked = new Map<ThingId, boolean>();
	for (const exchange of exchanges) {
		if (!exchange.asked) continue;
		const rooms = new Set([...exchange.gives.map(({ fromRoom }) => fromRoom), exchange.toRoom ?? '']);
		for (const room of rooms) {
			const saidNo = exchange.answers.some((one) => one.room === room && one.answer === 'no');
			asked.set(room, (asked.get(room) ?? true) && saidNo);
		}
	}
	return [...asked].flatMap(([room, saidNo]) => (saidNo ? [room] : []));
}

/** Crosses of the plan, whoever sent it; those whose fish are on their way or there are done. */
function crossesLeft(
	exchanges: readonly Exchange[],
	steps: ReadonlyMap<Exchange, PlanStep>,
	from: SeasonSettings
): SeasonSettings['outcrosses'] {
	const crosses = new Map(from.outcrosses.map((cross) => [cross.join(' '), cross]));
	const moved = new Set<string>();
	for (const one of exchanges) {
		if (!one.line || !one.outcross || !one.toRoom) continue;
		const cross = [one.line, one.outcross, one.toRoom] as const;
		crosses.set(cross.join(' '), cross);
		if (one.bags.length > 0 && ['agreed', 'done'].includes(steps.get(one)!)) moved.add(cross.join(' '));
	}
	return [...crosses].flatMap(([key, cross]) => (moved.has(key) ? [] : [cross]));
}

/** Bags that are on their way or have arrived have used up their places. */
function limitsLeft(
	exchanges: readonly Exchange[],
	steps: ReadonlyMap<Exchange, PlanStep>,
	from: SeasonSettings
): SeasonSettings['limits'] {
	const limits: Record<ThingId, { bagsOut?: number; bagsIn?: number; tanksFree?: number }> = {};
	for (const [room, own] of Object.entries(from.limits)) limits[room] = { ...own };
	const used = (room: ThingId, side: 'bagsOut' | 'bagsIn') => {
		const own = (limits[room] ??= {});
		own[side] = Math.max(0, (own[side] ?? from.perRoom[side]) - 1);
		if (side === 'bagsIn' && own.tanksFree !== undefined) own.tanksFree = Math.max(0, own.tanksFree - 1);
	};
	for (const exchange of exchanges) {
		const isMoved = exchange.bags.length > 0 && ['agreed', 'done'].includes(steps.get(exchange)!);
		if (!isMoved) continue;
		for (const room of new Set(exchange.gives.map(({ fromRoom }) => fromRoom))) used(room, 'bagsOut');
		if (exchange.toRoom) used(exchange.toRoom, 'bagsIn');
	}
	return limits;
}
