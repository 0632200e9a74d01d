/** What is gathered from the record of a line: the events, and what stands beside them. */
import type { GroupEvent, UnitId } from '#genetics/groups/event.ts';
import type { EntryId, ThingId } from '#records/entry.ts';

/** Something that the record leaves open, beside the parents of broods, and what it could be. */
export interface Doubt {
	readonly group: ThingId;
	/**
	 * `founders`: how related the first fish are; `bag`: which group they were taken from; `mix`: strangers may be
	 * among them; `surplus`: more fish were counted than the record accounts for.
	 */
	readonly about: 'founders' | 'bag' | 'mix' | 'surplus';
}

/** What a unit's row may be instead of what the events say, from its first mention on. */
export interface Widened {
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
