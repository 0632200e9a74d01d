import { exchangeStage } from '#club/exchanges/exchangeStage.ts';
import type { ThingId } from '#records/entry.ts';
import type { ClubState, Exchange } from '#records/state.ts';

const promised = ['proposed', 'asked', 'agreed', 'put off'];

/** Exchanges that are open and not yet bagged: their fish are promised. Those of one plan can be left out. */
export function openPromises(state: ClubState, now: number, exceptPlan: ThingId | null): Exchange[] {
	return [...state.exchanges.values()]
		.filter((one) => one.known && promised.includes(one.stage))
		.filter((one) => !exceptPlan || one.plan?.id !== exceptPlan)
		.filter((one) => promised.includes(exchangeStage(state, one, now).word))
		.sort((a, b) => (a.id < b.id ? -1 : 1));
}
