/**
 * What happens to fish kept in groups, as plain data: the input of `groupKinship`.
 *
 * A *unit* is a set of fish that nobody tells apart. Males and females of one group are two units, so that a
 * father is never drawn from the females; a fish with a name is a unit of one.
 */
export type UnitId = string;

/** How likely a parent came from one unit. `null` is one unknown outside fish, unrelated to all others. */
export interface ParentShare {
	readonly unit: UnitId | null;
	/** 0 to 1; the weights of one side sum to 1. */
	readonly weight: number;
}

/** The fathers, or the mothers, of one brood. A unit of several fish stands for one fish of it at random. */
export interface ParentSide {
	readonly from: readonly ParentShare[];
	/**
	 * `one`: one fish, we do not know which, is the parent of the whole brood.
	 * `several`: each of the young draws its parent by itself. The difference matters to how alike the young are.
	 */
	readonly draw: 'one' | 'several';
	/**
	 * With `one`: makes that fish a unit of its own, to name as the parent of its other broods. Its partners
	 * must then not come from the unit that it may be of itself: split such a unit by sex first.
	 */
	readonly name?: UnitId;
}

/** Fish of which no parents are known. */
export interface FoundersEvent {
	readonly kind: 'founders';
	readonly unit: UnitId;
	readonly count: number;
	/** Kinship of two different fish of the unit: 0 unrelated (assumed if absent), 0.25 the young of one pair. */
	readonly within?: number;
	/** Inbreeding of each fish; 0 if absent. */
	readonly inbreeding?: number;
	/** Kinship with earlier units, for example of the same shop; 0 with all others. */
	readonly related?: readonly { readonly unit: UnitId; readonly kinship: number }[];
}

/** A spawn or a drop. A unit on both sides is one whose sexes nobody knows: half of it is taken as male. */
export interface SpawnEvent {
	readonly kind: 'spawn';
	readonly fathers: ParentSide;
	readonly mothers: ParentSide;
	readonly young: readonly { readonly unit: UnitId; readonly count: number }[];
}

/** Fish chosen at random leave a unit. When all leave, the old unit stands for the fish that it last held. */
export interface SplitEvent {
	readonly kind: 'split';
	readonly unit: UnitId;
	readonly from: UnitId;
	readonly count: number;
}

/** Units are put together; the old ones stand for the fish that they last held. */
export interface MergeEvent {
	readonly kind: 'merge';
	readonly unit: UnitId;
	readonly of: readonly UnitId[];
}

/** From now on the unit has this many fish, at least one; who died or was missed did not depend on kinship. */
export interface CountEvent {
	readonly kind: 'count';
	readonly unit: UnitId;
	readonly count: number;
}

export type GroupEvent = FoundersEvent | SpawnEvent | SplitEvent | MergeEvent | CountEvent;
