import type { GroupEvent, ParentSide, UnitId } from '../groups/event.ts';

/** One way in which a brood may have come about: its father and its mother settled. */
export interface Settled {
	readonly father: UnitId | null;
	readonly mother: UnitId | null;
}

export interface UncertainBrood {
	/** Place of the spawn in the list of events. */
	readonly event: number;
	/** Every pair of a possible father and a possible mother. */
	readonly choices: readonly Settled[];
}

/**
 * Uncertain broods: of which broods is the father or the mother not settled, and who could they be?
 *
 * A brood counts when one of its sides names more than one candidate with a weight above 0. A unit of several
 * fish is one candidate: which of its fish it was is already part of the expectation.
 * Source: none needed, this lists what the events say.
 * Cost: O(candidate fathers times candidate mothers) for each brood.
 *
 * @param events as for `groupKinship`
 * @returns in order of the events
 * @example
 * uncertainBroods([]) // => []
 */
export function uncertainBroods(events: readonly GroupEvent[]): UncertainBrood[] {
	return events.flatMap((event, position) => {
		if (event.kind !== 'spawn') return [];
		const fathers = possible(event.fathers);
		const mothers = possible(event.mothers);
		if (fathers.length * mothers.length < 2) return [];
		const choices = fathers.flatMap((father) => mothers.map((mother) => ({ father, mother })));
		return [{ event: position, choices }];
	});
}

function possible(side: ParentSide): (UnitId | null)[] {
	return side.from.filter(({ weight }) => weight > 0).map(({ unit }) => unit);
}
