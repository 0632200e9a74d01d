import type { ThingId } from '#records/entry.ts';
import type { ClubState } from '#records/state.ts';
import type { LineEvents } from './gathered.ts';
import { Gathering } from './gathering.ts';

export type { Doubt, LineEvents, Widened } from './gathered.ts';

/**
 * Line events: what happened to the fish of a line, as events for the recursion of group kinship?
 *
 * Males, females and fish not sexed of a group are units with a common origin; a count that tells the sexes apart
 * makes units of them from then on. All that the record says is put in order of time, then of id, and parents before
 * their young where dates contradict each other: the same state gives the same events, whatever the order of arrival,
 * and what happened last changes nothing before it, save that founders of one source stand where the first of them
 * came, so that each is related to all that came from the others. Fish of a bag leave when it is packed.
 * Source: rules G1 to G7 as in `groupKinship`; what to assume is our own choice.
 * Cost: O(statements about the line), and one row of the table for each unit.
 */
export function lineEvents(state: ClubState, line: ThingId): LineEvents {
	return new Gathering(state, line).run();
}
