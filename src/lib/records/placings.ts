/**
 * Which rooms hold, held, give or receive a thing, and from which rank on (SPEC R23); in the same way, which lines and
 * which meetings it belongs to. A thing has few of them: a short list, replaced as a whole when it changes.
 */
import type { ThingId } from './entry.ts';
import { compareRanks, type Rank } from './rank.ts';

export interface Placing {
	readonly at: ThingId;
	/** The item that says so. */
	readonly by: object;
	/** As it was when it was put in: an item's rank may move on before it is taken out. */
	readonly rank: Rank;
}
export type Placings = readonly Placing[];

export const nowhere: Placings = [];

/**
 * The placings with an item's put in, or taken out.
 *
 * @param rank null = takes it out
 */
export function withPlacing(placings: Placings, by: object, at: ThingId, rank: Rank | null): Placings {
	const others = placings.length === 0 ? nowhere : placings.filter((one) => one.by !== by || one.at !== at);
	if (rank) return [...others, { at, by, rank }];
	return others.length > 0 ? others : nowhere;
}

/** The lowest rank of a placing there; null = there is none. */
export function firstRank(placings: Placings, at: ThingId): Rank | null {
	let first: Rank | null = null;
	for (const one of placings)
		if (one.at === at && (first === null || compareRanks(one.rank, first) < 0)) first = one.rank;
	return first;
}

/** Whether there is a placing of lower rank. */
export function isPlacedBefore(placings: Placings, rank: Rank): boolean {
	for (const one of placings) if (compareRanks(one.rank, rank) < 0) return true;
	return false;
}
