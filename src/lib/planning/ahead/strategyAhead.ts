/** What a look ahead is told, as plain data. */
import type { RoomAhead } from '#genetics/ahead/room.ts';
import type { GroupKinship } from '#genetics/groups/table.ts';

export interface RoomToCome extends RoomAhead {
	/** Rooms with one key share a heater or a power line: they fail together. */
	readonly house: string;
	/** False: it breeds on by itself and neither gives nor gets (closed, a doubt about its fish). */
	readonly takesPart: boolean;
}

export interface StrategyAhead {
	/**
	 * Who gives to whom in each round, among the rooms that take part: nobody; a random partner; always the room before
	 * in the ring; one room further back every time; the least related room, each room giving to one.
	 */
	readonly exchange: 'none' | 'random' | 'ring' | 'rotating' | 'leastRelated';
	/**
	 * Who breeds: `random`, each of the next breeders is the young of a random father and mother of its room; `even`,
	 * one daughter of every mother's brood and sons of as many broods as can be, mothers mated to the least related
	 * males, males used alike, and of the donor's broods the one that is least related to the room; `together`, broods,
	 * donors and pairs chosen at once for the least mean kinship of all breeders and of the pairs, where the exchange is
	 * `leastRelated` from any room that takes part, otherwise from the room whose turn it is.
	 */
	readonly breeders: 'random' | 'even' | 'together';
	/** Young males that move into each room in a round: at least 1; all of its males if there are fewer. */
	readonly malesMoved: number;
	/** A round in every generation that this number divides; at least 1. */
	readonly every: number;
}

/** What a generation does to the rooms themselves. */
export interface LossesAhead {
	/** Chance that a house loses the line within one generation, 0 to 1. */
	readonly lost: number;
	/** Chance that a room which has it fills an empty room again within one generation, 0 to 1. */
	readonly refilled: number;
}

export interface LineToCome {
	/** The fish that breed in each room, as they are related today. */
	readonly table: GroupKinship;
	/**
	 * The same fish as they may be related in truth, where the record leaves parents or founders open: draws of it, the
	 * same units in the same order. Absent or empty where nothing is open.
	 */
	readonly drawn?: readonly GroupKinship[];
	/** At least one; in the order of the ring. */
	readonly rooms: readonly RoomToCome[];
	readonly losses: LossesAhead;
}
