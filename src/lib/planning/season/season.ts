/**
 * A season's exchange: what is asked and what is answered. Rooms, lines, holdings and sources are known by their place
 * in their lists, from 0; ids are only carried along. Kinship lies between 0 and 1.
 */

/** A figure as expected, and the least and greatest that the record allows. */
export interface Range {
	readonly expected: number;
	readonly least: number;
	readonly greatest: number;
}
export interface SexedFish {
	readonly males: number;
	readonly females: number;
	readonly unsexed: number;
}

export interface SeasonRoom {
	readonly id: string;
	/** Bags that it can give and take at most; whole numbers from 0. */
	readonly bagsOut: number;
	readonly bagsIn: number;
	/** Tanks free for fish from elsewhere: each bag taken stands in one by itself at first. */
	readonly tanksFree: number;
	/** Nothing in or out: closed, or in touch with a closed room not long ago. */
	readonly isClosed: boolean;
	/** Bags given less bags received over the year. */
	readonly balance: number;
}

export interface SeasonLine {
	readonly id: string;
	/** Rooms that hold it now and can be counted on, and how many there should be. */
	readonly holders: number;
	readonly wantedHolders: number;
	/**
	 * Mean kinship, with replacement, of the line's holdings and then its sources, each in the order of their lists:
	 * symmetric, as expected. A holding without fish has a row of 0.
	 */
	readonly kinship: readonly (readonly number[])[];
}

/** A line in a room that holds it, or would like to (no fish yet). */
export interface SeasonHolding {
	readonly line: number;
	readonly room: number;
	/** Fish that can breed; fish not sexed are counted by halves. Both 0: a new holder. */
	readonly males: number;
	readonly females: number;
	/** Inbreeding of its next brood if nothing comes: mean kinship of its males and its females. Unused for a new holder. */
	readonly within: Range;
	/** Place in the line's waiting list, from 0; -1 = it did not ask. */
	readonly waiting: number;
}

/** A group with fish to spare. */
export interface SeasonSource {
	readonly id: string;
	readonly line: number;
	readonly room: number;
	readonly spare: SexedFish;
	/** Mean kinship of two different fish of it: the inbreeding of a brood that they have together. */
	readonly within: Range;
	/** For each holding of the problem: mean kinship of its fish with the holding's females and males; null = other line. */
	readonly withFemales: readonly (Range | null)[];
	readonly withMales: readonly (Range | null)[];
	/** For each source of the problem: mean kinship of a fish of each; null = other line. */
	readonly withSources: readonly (Range | null)[];
	/** The room that these fish came from last; -1 = none. */
	readonly cameFrom: number;
}

/** What is wanted, in units of inbreeding summed over the holdings. All 0 or more. */
export interface SeasonWeights {
	/** Kinship within each whole line, times its number of holdings, beside the inbreeding of the next broods. */
	readonly lambda: number;
	/** 0: by what is expected; 1: by the worst that the record allows; between: a mix. */
	readonly worstCase: number;
	/** For one unit of trip cost, and for one bag. */
	readonly trip: number;
	readonly bag: number;
	/**
	 * For each holder that a line has too few; and for each room of a waiting list that gets nothing, times 1 +
	 * 1 / (1 + its place in the list).
	 */
	readonly holder: number;
	readonly waiting: number;
	/** For a bag whose fish are as related to their mates as half brother and sister or closer. */
	readonly closeMates: number;
	/** For a bag back to the room that the fish came from. */
	readonly sendBack: number;
}

/** Something firmly wished. Wishes can clash; what is in the rooms and on the stops above never gives way. */
export type SeasonWish = { readonly id: string } & (
	| { readonly wish: 'holders'; readonly line: number; readonly least: number }
	| { readonly wish: 'newBlood'; readonly holding: number }
	| { readonly wish: 'bag'; readonly key: string }
	| { readonly wish: 'trips'; readonly most: number }
	| { readonly wish: 'bags'; readonly most: number }
	/**
	 * Given less received over the year, with this plan, between -most and most for every room; one that is beyond
	 * already goes no further.
	 */
	| { readonly wish: 'fair'; readonly most: number }
);

export interface SeasonProblem {
	readonly rooms: readonly SeasonRoom[];
	readonly lines: readonly SeasonLine[];
	readonly holdings: readonly SeasonHolding[];
	readonly sources: readonly SeasonSource[];
	/** Cost of a trip between two rooms, symmetric, 0 or more: 0 = the meeting covers it, or one house. */
	readonly tripCost: readonly (readonly number[])[];
	/** Pairs of rooms between which nothing may go. */
	readonly apart: readonly (readonly [number, number])[];
	/**
	 * [source's line, holding's line, holding's room; left out = any]: crosses between lines that were planned. Nothing
	 * else crosses lines.
	 */
	readonly outcrosses: readonly (readonly [from: number, to: number, room?: number])[];
	/** Bags that must not be, by key. */
	readonly banned: readonly string[];
	readonly wishes: readonly SeasonWish[];
	readonly weights: SeasonWeights;
	/** Mates at least this related are left out, unless a room has no others. */
	readonly tooClose: number;
	/** Fish in a bag for a holder: of one sex, or unsexed; and in a bag that founds a holding. */
	readonly bagOfOneSex: number;
	readonly bagOfUnsexed: number;
	readonly foundingBag: { readonly males: number; readonly females: number; readonly unsexed: number };
}

/** A bag that could be. */
export interface PossibleBag {
	/** The same for the same bag in any plan: sources, fish and holding by ids. */
	readonly key: string;
	readonly line: number;
	readonly holding: number;
	/** One source; or males of one and females of another, to found a holding. */
	readonly gives: readonly { readonly source: number; readonly fish: SexedFish }[];
	/** Share of one sex of the holding's next parents that these fish are, above 0 up to 1; 1 for a founding bag. */
	readonly share: number;
	/** Mean kinship of the fish with their mates. */
	readonly mates: Range;
	/** All that this room can get is too close: the least bad choice. */
	readonly leastBad: boolean;
	/** Back to the room where the fish came from. */
	readonly sendsBack: boolean;
}

export interface HoldingFigures {
	readonly holding: number;
	/** Inbreeding of the next brood: without the plan (null = no fish) and with it (null = still none). */
	readonly before: Range | null;
	readonly after: Range | null;
}
export interface SeasonFigures {
	/** What is made least: the next broods' inbreeding summed over all holdings, and what SeasonWeights adds. */
	readonly objective: number;
	/** The same with the worst that the record allows for every bag, whatever `worstCase` is. */
	readonly worstObjective: number;
	readonly holdings: readonly HoldingFigures[];
	/** For each line: mean kinship of the next parents, all rooms together, and holders, before and after. */
	readonly lines: readonly {
		readonly kinshipBefore: number;
		readonly kinshipAfter: number;
		readonly holdersAfter: number;
	}[];
	/** Pairs of rooms that somebody must travel between; what the meeting covers is none. */
	readonly trips: readonly { readonly rooms: readonly [number, number]; readonly cost: number }[];
	readonly tripCost: number;
	readonly bags: number;
	/** Mean over all holdings with fish before the plan. */
	readonly meanBefore: number;
	readonly meanAfter: number;
}

export interface SeasonPlan {
	readonly bags: readonly PossibleBag[];
	readonly figures: SeasonFigures;
	/** No plan can have a smaller objective than this. */
	readonly bound: number;
	/** Nothing better exists: the bound is reached. */
	readonly isProven: boolean;
	/** Wishes that this plan does not keep, because they clash: the fewest that can be given up. */
	readonly givenUp: readonly string[];
	/** Wishes that cannot all be kept; leaving out any one of them, the others can. Empty = all are kept. */
	readonly clash: readonly string[];
}
