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
	/**
	 * With `several`: how many fish of the unit had young, as if these were used evenly; all if absent. For known
	 * shares of use c it is 1 / sum c²: one male of three with 80 of 100 young and the others 10 each is 1.52.
	 * Which fish they were is not known, and the breeders of another brood are drawn anew.
	 */
	readonly breeders?: number;
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
	/**
	 * True when nobody has said how these fish are related: `within` and `related` are then a guess. Ranges take
	 * everything from 0 to the guess, or to `atMost` where that is more.
	 */
	readonly assumed?: boolean;
	/** With `assumed`: the greatest that the kinship within could be. */
	readonly atMost?: number;
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

/** Fish came out of one of several units, all of them out of the same one, and which is not known. */
export interface OneOfEvent {
	readonly kind: 'oneOf';
	/** The fish that came, as units: for example males and females. */
	readonly units: readonly { readonly unit: UnitId; readonly count: number }[];
	/**
	 * Where they may have come from; weights sum to 1. `units` tells, in the same order, out of which unit each
	 * of the new units came. These keep their numbers: say with a count how many were left.
	 */
	readonly from: readonly { readonly units: readonly UnitId[]; readonly weight: number }[];
}

/**
 * Some generations later a colony that nobody recorded brood by brood has become these fish. The units of its
 * fathers and mothers then hold no fish; they stand for those that they last held.
 */
export interface GenerationsEvent {
	readonly kind: 'generations';
	/**
	 * Units that the first fathers are drawn from: the very units of `mothers` where nobody tells the sexes apart,
	 * otherwise none of them.
	 */
	readonly fathers: readonly UnitId[];
	readonly mothers: readonly UnitId[];
	/** Effective number of fathers of each generation, 1 or more, and of mothers; need not be whole. */
	readonly males: number;
	readonly females: number;
	/** How many generations have passed, at least 1. */
	readonly generations: number;
	/** The fish of now, all of the last generation, for example as males and females. */
	readonly young: readonly { readonly unit: UnitId; readonly count: number }[];
}

/**
 * From now on the unit has this many fish; who died or was missed did not depend on kinship. None left: the unit
 * stands for the fish that it last held.
 */
export interface CountEvent {
	readonly kind: 'count';
	readonly unit: UnitId;
	readonly count: number;
}

export type GroupEvent =
	FoundersEvent | SpawnEvent | SplitEvent | OneOfEvent | MergeEvent | GenerationsEvent | CountEvent;
