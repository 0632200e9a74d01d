import type { GroupEvent, UnitId } from '#genetics/groups/event.ts';
import type { EntryId, ThingId } from '#records/entry.ts';
import type { ClubState } from '#records/state.ts';
import { Gathering } from './gathering.ts';

/** Something that the record leaves open, beside the parents of broods, and what it could be. */
export interface Doubt {
	readonly group: ThingId;
	/**
	 * `founders`: how related the first fish are; `bag`: which group they were taken from; `mix`: strangers may be
	 * among them; `surplus`: more fish were counted than the record accounts for.
	 */
	readonly about: 'founders' | 'bag' | 'mix' | 'surplus';
	/** How many ways there are that `chosen` can try; 0 is the one that stands in the events. */
	readonly ways: number;
}

/** What a unit's row may be instead of what the events say, from its first mention on. */
export interface Widened {
	/** Kinship of its fish with each other, if founders are taken otherwise. */
	readonly within?: number;
	/** Its fish may be, all or in part, of one of these units instead. */
	readonly orOf?: readonly UnitId[];
	/** Its fish may be, all or in part, unrelated to all others. */
	readonly orOutside?: boolean;
}

export interface LineEvents {
	readonly events: readonly GroupEvent[];
	/** When each event was, ms since 1970; never falls but where dates contradict the order of origin. */
	readonly times: readonly number[];
	/** Units that stand for a group's fish now, by group. */
	readonly units: ReadonlyMap<ThingId, readonly UnitId[]>;
	/** Fish of each of those units now, by the record; of a group that nobody counted: as assumed. */
	readonly fishNow: ReadonlyMap<UnitId, number>;
	readonly groupOf: ReadonlyMap<UnitId, ThingId>;
	readonly spawnOf: ReadonlyMap<number, ThingId>;
	readonly doubts: readonly Doubt[];
	readonly widened: ReadonlyMap<UnitId, Widened>;
	/** Groups that nobody knows the origin of: figures with other such groups are guesses. */
	readonly unknownOrigin: ReadonlySet<ThingId>;
	/** Groups that are taken to be related because they came from one source, with their relatives of that source. */
	readonly sameSource: ReadonlyMap<ThingId, readonly ThingId[]>;
	/** Groups that a group's fish came from, one step back. */
	readonly cameFrom: ReadonlyMap<ThingId, ReadonlySet<ThingId>>;
	/** Counts that exceed what the record accounts for: how many more, and the count that said so. */
	readonly surplus: ReadonlyMap<ThingId, { readonly more: number; readonly entry: EntryId }>;
}

/**
 * Line events: what happened to the fish of a line, as events for the recursion of group kinship?
 *
 * Males, females and fish not sexed of a group are units with a common origin; a count that tells the sexes apart
 * makes units of them from then on. All that the record says is put in order of time, then of id, and parents before
 * their young where dates contradict each other: the same state gives the same events, whatever the order of arrival,
 * and what happened last changes nothing before it. README.md in this folder says what is assumed where.
 * Source: rules G1 to G7 as in `groupKinship`; what to assume is our own choice.
 * Cost: O(statements about the line), and one row of the table for each unit.
 *
 * @param chosen for a doubt of a group, another way than 0
 */
export function lineEvents(
	state: ClubState,
	line: ThingId,
	chosen: ReadonlyMap<ThingId, number> = new Map()
): LineEvents {
	return new Gathering(state, line, chosen).run();
}
