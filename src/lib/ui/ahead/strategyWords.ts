/** The ways of swapping in words, in the order in which they are shown. */
import type { StrategyName } from '#planning/ahead/strategiesAhead.ts';

export const strategyWords: {
	readonly [Name in StrategyName]: { readonly sign: string; readonly name: string; readonly what: string };
} = {
	nothing: { sign: 'A', name: 'Nothing changes', what: 'every room breeds on with its own fish' },
	random: { sign: 'B', name: 'Random partner', what: 'each generation a male from a room drawn by lot' },
	ring: { sign: 'C', name: 'Ring', what: 'each generation a male from the room before, always the same' },
	turningRing: { sign: 'D', name: 'Turning ring', what: 'a ring that goes one room further back each time' },
	leastRelated: {
		sign: 'E',
		name: 'Least related',
		what: 'each generation a male from the least related room'
	},
	evenAtHome: {
		sign: 'F',
		name: 'Even broods at home',
		what: 'no swaps, but one son and one daughter of every brood, and the least related pairs'
	},
	rule: {
		sign: 'G',
		name: 'Least related, even broods',
		what: 'by rule: the least related room and brood, even broods and the least related pairs'
	},
	plan: {
		sign: 'H',
		name: 'Plan',
		what: 'each generation broods, swaps and pairs are chosen together, for all rooms at once'
	}
};

export const strategyNames = Object.keys(strategyWords) as StrategyName[];
