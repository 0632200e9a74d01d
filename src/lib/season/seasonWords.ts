/** The names and words behind a season's problem, by the same places in the lists. */
import type { LineStateWord } from '#club/lines/lineState.ts';
import type { SeasonProblem } from '#planning/season/season.ts';
import type { ThingId } from '#records/entry.ts';
import type { Line } from '#records/state.ts';
import type { TripWord } from './tripCosts.ts';

export interface SeasonRoomWords {
	readonly id: ThingId;
	readonly name: string;
	readonly keepers: string;
	readonly region: string;
	readonly house: string;
	/** Somebody of it comes to the meeting; false without a meeting. */
	readonly comes: boolean;
	/** The room said so itself, or the planning member did; false = it is only counted on. */
	readonly hasSaid: boolean;
	/** Why nothing goes in or out, as a sentence; '' = it may. */
	readonly stop: string;
	/** Where the number of its free tanks comes from, as a sentence; '' = the planning member typed it. */
	readonly tanks: string;
	/** One of its tanks is closed or in quarantine. */
	readonly isTroubled: boolean;
	/** The planning member keeps it. */
	readonly mine: boolean;
}
export interface SeasonLineWords {
	readonly id: ThingId;
	readonly name: string;
	readonly code: string;
	readonly state: LineStateWord;
	readonly because: string;
	/** May send every part of a plan for it; others only what their own rooms give or get. */
	readonly sendsAll: boolean;
	/** What a keeper must know before its fish move; see the line's definition. */
	readonly movement: Line['movement'];
}
export interface SeasonHoldingWords {
	readonly groups: readonly { readonly id: ThingId; readonly name: string }[];
	/** ISO date since when the room has asked for the line; '' = it does not ask. */
	readonly waitingSince: string;
	readonly raisesHolders: boolean;
	/** Why the inbreeding of its next brood is not certain, after "because"; '' = it is. */
	readonly wide: string;
}
export interface SeasonSourceWords {
	readonly group: ThingId;
	readonly name: string;
	readonly tank: string;
	readonly spareWhy: 'offered' | 'beyond the minimum';
	/** Last day of the offer, ISO date; '' = not said. */
	readonly until: string;
	/** Why its kinship is not certain, after "because"; '' = it is. */
	readonly wide: string;
	/** Nobody has told where its first fish came from. */
	readonly unknownOrigin: boolean;
}
export interface LeftOutOfSeason {
	readonly line: ThingId;
	/** '' = the room's fish of the line as a whole. */
	readonly group: ThingId;
	readonly groupName: string;
	readonly room: ThingId;
	readonly roomName: string;
	/** A sentence. */
	readonly why: string;
}

export interface SeasonWords {
	readonly rooms: readonly SeasonRoomWords[];
	readonly lines: readonly SeasonLineWords[];
	readonly holdings: readonly SeasonHoldingWords[];
	readonly sources: readonly SeasonSourceWords[];
	readonly trips: readonly (readonly TripWord[])[];
	readonly meeting: { readonly id: ThingId; readonly name: string; readonly date: string } | null;
	/** Groups that give nothing, and rooms that get nothing, each with why. */
	readonly leftOut: readonly LeftOutOfSeason[];
}

/** A problem with what is needed to speak of it. */
export interface SeasonAsked {
	readonly problem: SeasonProblem;
	readonly words: SeasonWords;
}
