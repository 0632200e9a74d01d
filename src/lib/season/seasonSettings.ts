/** What the planning member has set for a season's plan: plain data, kept on the device by the screens. */
import type { ThingId } from '#records/entry.ts';

export interface RoomLimits {
	readonly bagsOut?: number;
	readonly bagsIn?: number;
	readonly tanksFree?: number;
}

export interface SeasonSettings {
	/** Empty = all that the member may plan. */
	readonly lines: readonly ThingId[];
	readonly meeting: ThingId | null;
	/** ISO date by which the bags should have moved, where no meeting is set; '' = now. */
	readonly until: string;
	/** Rooms that have not said whether they come to the meeting are counted as coming. */
	readonly notSaidCounts: boolean;
	/** Who comes, as the member knows it: stands before what the rooms have said. */
	readonly comes: Readonly<Record<ThingId, boolean>>;
	readonly limits: Readonly<Record<ThingId, RoomLimits>>;
	readonly perRoom: { readonly bagsOut: number; readonly bagsIn: number };
	readonly tripsAtMost: number | null;
	readonly bagsAtMost: number | null;
	readonly fair: boolean;
	/** 0: by what is expected; 0.5: a bit careful; 1: ready for the worst that the record allows. */
	readonly careful: 0 | 0.5 | 1;
	readonly saveTrips: 'little' | 'normal' | 'much';
	/** What weighs more: the line's variety, or little inbreeding in the next broods. */
	readonly freshness: 'variety' | 'normal' | 'inbreeding';
	/** What if these rooms drop out? */
	readonly without: readonly ThingId[];
	/** Groups that give nothing, for example since they may carry a trait that is not wanted. */
	readonly notFrom: readonly ThingId[];
	/** The sex that travels to a room which has fish already. */
	readonly sexes: 'males' | 'females' | 'either';
	/** Crosses on purpose: fish of one line go to a room that has the other. */
	readonly outcrosses: readonly (readonly [from: ThingId, to: ThingId, room: ThingId])[];
	/** Bags that must be, and must not be, by key. */
	readonly locked: readonly string[];
	readonly banned: readonly string[];
	/** Fish of these groups do not go to these rooms: somebody said no. */
	readonly declined: readonly { readonly group: ThingId; readonly room: ThingId }[];
	readonly holdersAtLeast: Readonly<Record<ThingId, number>>;
	readonly newBloodFor: readonly (readonly [line: ThingId, room: ThingId])[];
	/** The plan that is repaired: what stands of it is locked, so its fish are not taken as promised. */
	readonly repairs: ThingId | null;
}

/** Three bags out and two in: own choice, what a keeper can pack and put into tanks of their own in one evening. */
export const defaultSettings: SeasonSettings = {
	lines: [],
	meeting: null,
	until: '',
	notSaidCounts: true,
	comes: {},
	limits: {},
	perRoom: { bagsOut: 3, bagsIn: 2 },
	tripsAtMost: null,
	bagsAtMost: null,
	fair: false,
	careful: 0,
	saveTrips: 'normal',
	freshness: 'normal',
	without: [],
	notFrom: [],
	sexes: 'either',
	outcrosses: [],
	locked: [],
	banned: [],
	declined: [],
	holdersAtLeast: {},
	newBloodFor: [],
	repairs: null
};
