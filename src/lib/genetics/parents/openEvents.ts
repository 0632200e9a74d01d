import type { GroupEvent, OneOfEvent, ParentShare, ParentSide, SpawnEvent } from '../groups/event.ts';

/** One way in which an event may have been. */
export interface Way {
	/** The event as it then was. */
	readonly event: GroupEvent;
	/** How likely, 0 to 1; the ways of one event sum to 1. */
	readonly weight: number;
}

/** An event of which not all is known. */
export interface OpenEvent {
	/** Its place in the list of events. */
	readonly place: number;
	readonly ways: readonly Way[];
}

/** Where each of the young drew its parent, how much the stated mix weighs against one candidate for all. */
const shareOfMix = 0.5;

/**
 * Open events: what in these events is not settled, and in which ways may it have been?
 *
 * Open are broods that name more than one possible father or mother with a weight above 0, and fish that came out
 * of one of several units. Ways of a brood are the pairs of a father and a mother; where each of the young drew its
 * parent by itself, the stated mix is a way too. A unit of several fish is one candidate: which of its fish it was
 * is already part of the expectation.
 * Source: own; the weight of the mix is our own choice and touches only what is worth finding out first.
 * Cost: O(ways).
 *
 * @param events as for `groupKinship`
 * @returns in order of the events
 * @example
 * openEvents([{ kind: 'founders', unit: 'a', count: 2 }]) // => []
 */
export function openEvents(events: readonly GroupEvent[]): OpenEvent[] {
	return events.flatMap((event, place) => {
		const ways =
			event.kind === 'spawn' ? waysOfSpawn(event) : event.kind === 'oneOf' ? waysOfSource(event) : [];
		return ways.length > 1 ? [{ place, ways }] : [];
	});
}

function waysOfSpawn(event: SpawnEvent): Way[] {
	const mothers = waysOfSide(event.mothers);
	return waysOfSide(event.fathers).flatMap((father) =>
		mothers.map((mother) => ({
			event: { ...event, fathers: father.side, mothers: mother.side },
			weight: father.weight * mother.weight
		}))
	);
}

function waysOfSide(side: ParentSide): { side: ParentSide; weight: number }[] {
	const possible = side.from.filter(({ weight }) => weight > 0);
	const total = possible.reduce((sum, { weight }) => sum + weight, 0);
	const only = (share: ParentShare) => ({ ...side, from: [{ ...share, weight: 1 }] });
	const each = possible.map((share) => ({ side: only(share), weight: share.weight / total }));
	if (side.draw === 'one' || possible.length < 2) return each;
	const pure = each.map((way) => ({ ...way, weight: way.weight * (1 - shareOfMix) }));
	return [...pure, { side, weight: shareOfMix }];
}

function waysOfSource(event: OneOfEvent): Way[] {
	const possible = event.from.filter(({ weight }) => weight > 0);
	const total = possible.reduce((sum, { weight }) => sum + weight, 0);
	return possible.map((source) => ({
		event: { ...event, from: [{ ...source, weight: 1 }] },
		weight: source.weight / total
	}));
}
