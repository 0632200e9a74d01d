/**
 * A line's family as plain data for a drawing: groups are the nodes, spawns and moves the edges. Nothing here says
 * how to draw; ids of groups, rooms, spawns and bags are the record's own. All times are ms since 1970.
 */
import type { ThingId } from '#records/entry.ts';
import type { Certainty, Fish, Standing } from '#records/state.ts';

export interface Family {
	readonly line: ThingId;
	/** Oldest first; a group never stands before one that its fish came from, unless the record goes in a circle. */
	readonly groups: readonly FamilyGroup[];
	readonly spawns: readonly FamilySpawn[];
	readonly moves: readonly FamilyMove[];
	/** Rooms that groups of the drawing are in, by name. */
	readonly rooms: readonly { readonly id: ThingId; readonly name: string }[];
}

export interface FamilyGroup {
	readonly id: ThingId;
	readonly name: string;
	readonly line: ThingId | null;
	/** False for fish of another line that came in: an outcross, a merged line. */
	readonly ofThisLine: boolean;
	/** False when it is only mentioned so far. */
	readonly known: boolean;
	readonly room: ThingId | null;
	readonly roomName: string;
	readonly tank: string;
	/**
	 * The symbol of a standard pedigree drawing: square = males only, circle = females only, diamond = both or not
	 * sexed. Of a group that is gone: by the last fish that it held.
	 */
	readonly symbol: 'square' | 'circle' | 'diamond';
	/** One fish, not a group of several: drawn without a number. */
	readonly single: boolean;
	/** Fish now; all 0 for a group that is gone. */
	readonly fish: Fish;
	readonly certainty: Certainty | 'not known';
	/** Fish at first, as far as was counted. */
	readonly began: Fish | null;
	/**
	 * `living`: fish are there. `dead`: the last fish died. `gone`: no fish are there, but they moved on, were sold or
	 * ended otherwise. `not known`: nobody has counted.
	 */
	readonly standing: 'living' | 'dead' | 'gone' | 'not known';
	readonly closed: boolean;
	readonly suspectedMix: boolean;
	readonly from: 'founders' | 'brood' | 'bag' | 'group' | 'list' | 'not known';
	/** In the keeper's words, for founders. */
	readonly source: string;
	/** First possible moment; null = not known. */
	readonly at: number | null;
	/** 0 for fish of no recorded parents; of young, 1 more than the mean of their parents. */
	readonly generation: number;
	/** Mean inbreeding of its fish as expected, 0 to 1; null = not part of the computation. */
	readonly inbreeding: number | null;
}

export interface FamilyParent {
	readonly group: ThingId;
	readonly standing: Standing;
}

/** Young and who their parents may be: drawn as a mating line; dashed where a parent is only possible. */
export interface FamilySpawn {
	readonly id: ThingId;
	readonly sort: 'spawn' | 'drop';
	readonly brood: ThingId;
	readonly room: ThingId | null;
	readonly at: number | null;
	/** Ruled out ones are in the list too; empty = nobody said. */
	readonly fathers: FamilyParents;
	readonly mothers: FamilyParents;
	/** Kinship of the parents as expected, 0 to 1: a double line where it is above 0. */
	readonly parentsRelated: number | null;
}
export interface FamilyParents {
	readonly of: readonly FamilyParent[];
	/** A parent who is not listed is possible. */
	readonly others: boolean;
	readonly number: 'one' | 'several' | 'not known';
	/** One candidate, seen, and nobody else: a full line. */
	readonly certain: boolean;
	/** The record names nobody: these are found by where the mother lived. */
	readonly derived: boolean;
}

/** Fish that went from one group to another. */
export interface FamilyMove {
	/** `bag`: in a bag; `split`: a part became a group of its own; `merge`: one of several put together; `moved`: later. */
	readonly kind: 'bag' | 'split' | 'merge' | 'moved';
	readonly from: ThingId;
	readonly to: ThingId;
	readonly at: number | null;
	readonly bag: ThingId | null;
	/** As records keep it; '' = no bag or no number. */
	readonly bagNumber: string;
	/** null = nobody said how many. */
	readonly fish: Fish | null;
	/** False where the record does not say which group of the room the fish came from. */
	readonly certain: boolean;
}
