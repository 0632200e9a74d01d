/** A family drawing as it is placed on paper; lengths in units of the drawing, which are pixels at its own size. */
import type { ThingId } from '#records/entry.ts';

export interface Point {
	readonly x: number;
	readonly y: number;
}

/** The middle of a group's box: symbol above, name, room and count below it. */
export interface PlacedGroup extends Point {
	readonly id: ThingId;
}

/** Where the parents' lines meet; the line to the young starts here. */
export interface PlacedMating extends Point {
	readonly id: ThingId;
	/** A parent is not known, or may be one that is not listed. */
	readonly open: boolean;
}

export interface PlacedLine {
	readonly id: string;
	/** `parent`: from a parent to the mating line. `young`: from there to the brood. `move`: fish that went on. */
	readonly kind: 'parent' | 'young' | 'move';
	readonly from: ThingId;
	readonly to: ThingId;
	readonly points: readonly Point[];
	/** Only possible, not certain. */
	readonly dashed: boolean;
	/** The parents are related. */
	readonly double: boolean;
	/** Words on the arrow, and where. */
	readonly label: string;
	readonly labelAt: Point | null;
}

export interface Drawing {
	readonly width: number;
	readonly height: number;
	readonly groups: readonly PlacedGroup[];
	readonly matings: readonly PlacedMating[];
	readonly lines: readonly PlacedLine[];
}

export const groupWidth = 148;
export const groupHeight = 106;
/** From the top of a group's box to the middle of its symbol. */
export const symbolDown = 24;
