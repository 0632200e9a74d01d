import { exchangeStage } from '#club/exchanges/exchangeStage.ts';
import type { ThingId } from '#records/entry.ts';
import { namesOf } from '#records/names.ts';
import type { ClubState, Exchange } from '#records/state.ts';
import { planStep, type PlanStep } from './planStep.ts';
import type { SeasonAsking } from './seasonAsking.ts';

export interface PlanRow {
	readonly id: ThingId;
	readonly name: string;
	readonly lines: readonly { readonly id: ThingId; readonly name: string; readonly code: string }[];
	readonly meeting: { readonly id: ThingId; readonly name: string; readonly date: string } | null;
	/** Who sent it first, and when: ms since 1970. */
	readonly by: string;
	readonly at: number;
	/** Those of each giving room count by themselves, here and in the steps. */
	readonly bags: number;
	readonly steps: Readonly<Record<PlanStep, number>>;
	/** Something of it can still come to be. */
	readonly isOpen: boolean;
	/** Bags that somebody said no to, and that nothing has taken the place of. */
	readonly holes: number;
	/** The member keeps a room in it, or looks after one of its lines. */
	readonly mine: boolean;
}

/** Exchanges of each plan, by its id; those of one plan in order of their ids. */
export function exchangesByPlan(state: ClubState): Map<ThingId, Exchange[]> {
	const plans = new Map<ThingId, Exchange[]>();
	for (const exchange of [...state.exchanges.values()].sort((a, b) => (a.id < b.id ? -1 : 1))) {
		if (!exchange.known || !exchange.plan) continue;
		const of = plans.get(exchange.plan.id);
		if (of) of.push(exchange);
		else plans.set(exchange.plan.id, [exchange]);
	}
	return plans;
}

/** Plans list: which plans were sent, and how far is each? The newest first. */
export function plansList(
	state: ClubState,
	args: { readonly line?: ThingId; readonly meeting?: ThingId },
	asking: SeasonAsking
): PlanRow[] {
	return [...exchangesByPlan(state)]
		.map(([id, exchanges]) => planRow(state, id, exchanges, asking))
		.filter(({ lines, meeting }) => {
			if (args.line && !lines.some(({ id }) => id === args.line)) return false;
			return !args.meeting || meeting?.id === args.meeting;
		})
		.sort((a, b) => b.at - a.at || (a.id < b.id ? 1 : -1));
}

export function planRow(
	state: ClubState,
	id: ThingId,
	exchanges: readonly Exchange[],
	asking: SeasonAsking
): PlanRow {
	const names = namesOf(state, null);
	const steps: Record<PlanStep, number> = { planned: 0, asked: 0, agreed: 0, declined: 0, done: 0, over: 0 };
	let [isOpen, bags] = [false, 0];
	for (const exchange of exchanges) {
		const now = exchangeStage(state, exchange, asking.now);
		// Each room that gives fills a bag of its own.
		const filled = Math.max(1, new Set(exchange.gives.map(({ fromRoom }) => fromRoom)).size);
		steps[planStep(now.word)] += filled;
		bags += filled;
		isOpen ||= now.open;
	}
	const first = exchanges.reduce((best, one) =>
		(one.proposed?.when.last ?? Infinity) < (best.proposed?.when.last ?? Infinity) ? one : best
	);
	const last = exchanges.reduce((best, one) =>
		(one.proposed?.when.last ?? 0) > (best.proposed?.when.last ?? 0) ? one : best
	);
	const lineIds = [...new Set(exchanges.flatMap(({ line }) => line ?? []))].sort();
	const meeting = exchanges
		.map((one) => state.meetings.get(one.meeting ?? ''))
		.find((one) => one !== undefined);
	const me = state.members.get(asking.me);
	const rooms = new Set(exchanges.flatMap((one) => [one.toRoom, ...one.gives.map((give) => give.fromRoom)]));
	return {
		...{ id, name: last.plan?.name || 'A plan without a name', steps, isOpen, bags },
		lines: lineIds.map((line) => ({
			...{ id: line, name: names.line(line), code: state.lines.get(line)?.code ?? '' }
		})),
		meeting: meeting ? { id: meeting.id, name: names.meeting(meeting.id), date: meeting.date } : null,
		by: first.proposed ? names.member(first.proposed.by) : '',
		at: first.proposed?.when.last ?? 0,
		holes: holesOf(state, exchanges, asking.now).length,
		mine:
			!!me?.rooms.some((room) => rooms.has(room)) ||
			!!me?.roles.some(({ role, of }) => role !== 'runner' && of !== null && lineIds.includes(of))
	};
}

/** Declined bags whose room gets nothing else of the line by this plan. */
export function holesOf(state: ClubState, exchanges: readonly Exchange[], now: number): Exchange[] {
	const stage = new Map(exchanges.map((one) => [one, exchangeStage(state, one, now).word]));
	const stands = (one: Exchange) => !['declined', 'over'].includes(planStep(stage.get(one)!));
	return exchanges.filter(
		(one) =>
			!stands(one) &&
			!exchanges.some((other) => stands(other) && other.line === one.line && other.toRoom === one.toRoom)
	);
}
