/**
 * The club state: what the fold makes of all entries. Plain data, rebuilt thing by thing, the same on every device.
 * This file is long because it is the one list of all that the club knows; parts of it would have to be read together.
 * Ids of entries stand beside every figure, so that a person can see who said it and when.
 */
import type { EntryId, MemberId, ThingId } from './entry.ts';
import type { When } from './happened.ts';

/** Fish by sex. Whole numbers, 0 or more; in a change they may be negative. */
export interface Fish {
	readonly males: number;
	readonly females: number;
	readonly unsexed: number;
}

/** Why a number is believed. */
export type Certainty = 'counted' | 'about' | 'old list';

/** Who said it and when: stands beside each statement in the state. */
export interface Said {
	readonly entry: EntryId;
	readonly by: MemberId;
	readonly toldBy: string | null;
	readonly when: When;
}

export type VerdictName = 'counts' | 'told by' | 'waiting' | 'not allowed' | 'not understood';
export interface Verdict {
	readonly name: VerdictName;
	/** One sentence why, for everything but `counts`; '' there. */
	readonly why: string;
}

/** What every thing has. */
export interface Thing {
	readonly id: ThingId;
	/** False while only mentioned: shown as a placeholder. */
	known: boolean;
	/** All entries about it in rank order, counting or not, for its history. */
	entries: EntryId[];
	/** Entries about it that do not count (told by, waiting, not allowed, not understood): named as left out. */
	leftOut: EntryId[];
	/** Open doubts: disputes nobody has decided. */
	disputes: Dispute[];
	/** Sets of corrections that had not seen each other: two versions, needs a look. */
	twoVersions: EntryId[][];
}

export interface Dispute extends Said {
	readonly of: EntryId;
	readonly reason: string;
	/** The decision, once there is one. */
	decided: (Said & { readonly stands: boolean; readonly reason: string }) | null;
}

export interface Club extends Thing {
	name: string;
	/** IANA time zone, in which dates without an offset are read. */
	timeZone: string;
	region: string;
	opened: Said | null;
	/** Pairs of regions that are far apart, each in order of names. */
	far: readonly (Said & { readonly one: string; readonly other: string })[];
}

export type RoleName = 'officer' | 'coordinator' | 'deputy' | 'runner';
export interface Role {
	readonly role: RoleName;
	/** The line of a coordinator or deputy, the meeting of a runner; null for officers. */
	readonly of: ThingId | null;
	readonly since: Said;
}

export interface Member extends Thing {
	/** Handle or name, as the member wants to be shown. */
	name: string;
	joined: Said | null;
	left: Said | null;
	roles: Role[];
	/** Rooms kept now. */
	rooms: ThingId[];
}

export interface Room extends Thing {
	name: string;
	/** Region at most; never an address. */
	region: string;
	/** Rooms of one house (one heater, one power line) count once. '' = by itself. */
	house: string;
	keepers: MemberId[];
	keepersBefore: { readonly member: MemberId; readonly until: When }[];
	/** The private document's epoch: changes with the keepers. */
	epoch: string;
	/** "Still have them?" answers, per line, newest last. */
	checks: RoomCheck[];
	/** Line -> the last tank-wide closing of the whole room. */
	closed: (Said & { readonly reason: string }) | null;
	/** Tanks free for newcomers, as somebody said last; null = nobody has. */
	tanksFree: (Said & { readonly tanks: number }) | null;
	wants: Want[];
}

export interface RoomCheck extends Said {
	readonly line: ThingId;
	readonly has: 'yes' | 'no' | 'unsure';
	readonly breeding: 'yes' | 'no' | 'unknown';
	readonly note: string;
}

export interface Want extends Said {
	readonly line: ThingId;
	readonly room: ThingId;
	readonly note: string;
	ended: Said | null;
}

export type LineKind = 'conservation' | 'strain';
export type FishGroup =
	| 'bristlenose'
	| 'guppy'
	| 'livebearer'
	| 'goodeid'
	| 'killifish'
	| 'annual killifish'
	| 'rainbowfish'
	| 'dwarf cichlid'
	| 'corydoras'
	| 'other';

export interface LineDefinition {
	code: string;
	name: string;
	kind: LineKind;
	fishGroup: FishGroup;
	/** Verbatim first, tidied second; '' = not known. */
	taxonVerbatim: string;
	taxonTidy: string;
	localityVerbatim: string;
	localityCode: string;
	source: string;
	/** Words of caution at the moment fish move: listed species, native fish, restricted somewhere. */
	movement: 'none' | 'listed' | 'native' | 'restricted';
}

export interface LineRules {
	targetRooms: number;
	confirmedDays: number;
	ageingDays: number;
	neverCrossWith: string;
	spareToPublic: boolean;
}

export interface Line extends Thing, LineDefinition {
	opened: Said | null;
	rules: LineRules;
	rulesSaid: Said | null;
	standard: (Said & { readonly text: string; readonly throws: string }) | null;
	/** The coordinator's own word: retired, lost, or kept (takes back). */
	stateSaid: (Said & { readonly state: 'retired' | 'lost' | 'kept'; readonly reason: string }) | null;
	mixes: Mix[];
}

export interface Mix extends Said {
	readonly group: ThingId;
	readonly what: string;
	readonly sort: 'jumped' | 'unknown male' | 'shared net' | 'look-alike' | 'other';
}

export type Stage =
	| 'laid'
	| 'eyed'
	| 'hatched'
	| 'free-swimming'
	| 'growing on'
	| 'sexed'
	| 'look known'
	| 'adult'
	| 'eggs in peat'
	| 'ended';

export interface CountStatement extends Said {
	readonly fish: Fish;
	readonly certainty: Certainty;
}

export interface CountChange extends Said {
	/** Added to the count: negative for losses. */
	readonly fish: Fish;
	readonly why:
		| 'died'
		| 'lost'
		| 'rehomed'
		| 'put down'
		| 'let go'
		| 'added'
		| 'moved'
		| 'bagged'
		| 'given back'
		| 'arrived'
		| 'hatched';
	readonly cause: string;
	readonly bag: ThingId | null;
	/** The group that the fish went to or came from. */
	readonly other: ThingId | null;
}

/** The number that stands, and how it came about. */
export interface CountNow {
	readonly fish: Fish;
	readonly certainty: Certainty | 'not known';
	/** The count that stands; null = nobody has counted. */
	readonly base: CountStatement | null;
	/** Changes added to it. */
	readonly added: readonly EntryId[];
	/** Changes whose time overlaps the count: taken as already in it, order not clear. */
	readonly orderNotClear: readonly EntryId[];
	/** "More left than were counted". */
	readonly belowZero: boolean;
}

export type Origin =
	| {
			readonly from: 'founders';
			readonly source: string;
			readonly related: 'unrelated' | 'one brood' | 'not known';
	  }
	| { readonly from: 'brood'; readonly spawn: ThingId }
	| { readonly from: 'bag'; readonly bag: ThingId }
	| { readonly from: 'group'; readonly groups: readonly ThingId[] }
	| { readonly from: 'list'; readonly row: string }
	| { readonly from: 'not known' };

export interface Group extends Thing {
	line: ThingId | null;
	room: ThingId | null;
	name: string;
	/** Where it stands, in the keeper's words: "rack 2, left". */
	tank: string;
	origin: Origin;
	started: Said | null;
	stages: (Said & { readonly stage: Stage })[];
	stage: Stage | null;
	counts: CountStatement[];
	changes: CountChange[];
	now: CountNow;
	closed: (Said & { readonly reason: string }) | null;
	quarantine: (Said & { readonly untilMs: number; readonly reason: string }) | null;
	mixes: Mix[];
	spare: (Said & { readonly fish: Fish; readonly until: string; readonly note: string }) | null;
	eggBag: (Said & { readonly checkDue: string; readonly wetDue: string; readonly label: string }) | null;
	/** Bags that fish of this group are in or went away in. */
	bags: ThingId[];
	/** Spawns seen in this group. */
	spawns: ThingId[];
	ended: Said | null;
}

export type Standing = 'seen' | 'likely' | 'possible' | 'ruled out';
/** One possible parent: a fish of a group, or the group as a whole ("one of these"). */
export interface PossibleParent {
	readonly group: ThingId;
	readonly standing: Standing;
}
export interface ParentSet {
	readonly of: readonly PossibleParent[];
	/** Whether there may be a parent who is not listed. */
	readonly others: boolean;
	/** One parent for the whole brood, several, or not known. */
	readonly number: 'one' | 'several' | 'not known';
}

export interface Spawn extends Thing {
	line: ThingId | null;
	room: ThingId | null;
	sort: 'spawn' | 'drop';
	/** The breeding group it was seen in. */
	inGroup: ThingId | null;
	/** The group that the young are. */
	brood: ThingId | null;
	seen: Said | null;
	mothers: ParentSet;
	fathers: ParentSet;
	parentsSaid: Said | null;
}

export interface BagContent {
	/** The group the fish came from; null = not said yet. */
	readonly group: ThingId | null;
	readonly fish: Fish;
}
export type BagTo =
	| { readonly to: 'room'; readonly room: ThingId }
	| { readonly to: 'guest'; readonly name: string }
	| { readonly to: 'outside'; readonly name: string }
	| { readonly to: 'open' };

export interface BagStatement extends Said {
	readonly bag: ThingId;
	readonly side: 'giver' | 'receiver' | 'other';
	readonly number: string;
	readonly line: ThingId | null;
	readonly contents: readonly BagContent[];
	readonly fromRoom: ThingId | null;
	readonly to: BagTo | null;
	readonly note: string;
}
export interface BagArrival extends Said {
	readonly bag: ThingId;
	readonly room: ThingId;
	readonly group: ThingId;
	readonly line: ThingId | null;
	readonly alive: Fish;
	readonly dead: number;
	readonly certainty: Certainty;
}
export type BagStage =
	'mentioned' | 'bagged' | 'handed over' | 'arrived' | 'settled' | 'given back' | 'failed';

export interface Bag extends Thing {
	/** All ids that stand for this one bag: its own and those joined by number or by a person. */
	ids: ThingId[];
	number: string;
	/** Same number, but they cannot be one bag and nobody has said: "two bags with one number?" */
	numberClash: ThingId[];
	line: ThingId | null;
	fromRoom: ThingId | null;
	to: BagTo | null;
	contents: readonly BagContent[];
	meeting: ThingId | null;
	exchange: ThingId | null;
	statements: BagStatement[];
	handOvers: (Said & { readonly side: 'giver' | 'receiver' | 'other' })[];
	arrivals: BagArrival[];
	givenBack: Said | null;
	failed: (Said & { readonly how: 'died' | 'lost' | 'elsewhere'; readonly note: string }) | null;
	dayCounts: (Said & { readonly alive: number; readonly note: string })[];
	/** What the two sides or two devices say differently, in words; empty = nothing to settle. */
	differences: string[];
	/** A person has looked at the differences. */
	settled: (Said & { readonly note: string }) | null;
	baggedAt: When | null;
	stage: BagStage;
}

export interface ExchangeGive {
	readonly fromRoom: ThingId;
	readonly group: ThingId | null;
	readonly fish: Fish;
}
export interface ExchangePlan {
	readonly id: ThingId;
	readonly name: string;
	/** Inbreeding of the receiver's next brood without and with the plan, in ten-thousandths; null before = no fish. */
	readonly expects: { readonly before: number | null; readonly after: number } | null;
}
export interface Answer extends Said {
	readonly room: ThingId;
	readonly answer: 'yes' | 'no' | 'later';
	/** ISO date for `later`; '' otherwise. */
	readonly until: string;
	readonly reason: string;
	/** By phone, through the coordinator or an officer. */
	readonly byPhone: boolean;
}
export type ExchangeStage =
	| 'proposed'
	| 'asked'
	| 'agreed'
	| 'bagged'
	| 'handed over'
	| 'arrived'
	| 'settled'
	| 'declined'
	| 'put off'
	| 'called off'
	| 'failed';

export interface Exchange extends Thing {
	line: ThingId | null;
	gives: readonly ExchangeGive[];
	toRoom: ThingId | null;
	meeting: ThingId | null;
	note: string;
	/** The sentence and figures that it was proposed with. */
	reason: string;
	/** The line that these fish are to be crossed with on purpose, in the receiver's room; null = none. */
	outcross: ThingId | null;
	/** Exchanges with one plan id were planned together. */
	plan: ExchangePlan | null;
	proposed: Said | null;
	asked: Said | null;
	/** The last answer of each room. */
	answers: Answer[];
	calledOff: (Said & { readonly reason: string }) | null;
	bags: ThingId[];
	/** Without the passing of time; club/exchangeStage adds lapsed and "settled, no report". */
	stage: ExchangeStage;
}

export interface Meeting extends Thing {
	name: string;
	/** ISO date. */
	date: string;
	/** A hall's name or a town, as members say it. */
	place: string;
	planned: Said | null;
	calledOff: Said | null;
	attending: (Said & { readonly room: ThingId; readonly coming: boolean })[];
	bags: ThingId[];
}

/** What the fold knows of one entry, for screens: the entry, its verdict, what replaced it. */
export interface EntryView {
	readonly id: EntryId;
	readonly verdict: Verdict;
	/** Entries that correct it and count; empty = it stands. */
	readonly correctedBy: readonly EntryId[];
	readonly n: number | null;
	readonly acceptedAt: number | null;
	/** A clock that was wrong: the id's time lies after the server's acceptance. */
	readonly clockWrong: boolean;
}

export interface ClubState {
	readonly club: Club;
	readonly members: ReadonlyMap<MemberId, Member>;
	readonly rooms: ReadonlyMap<ThingId, Room>;
	readonly lines: ReadonlyMap<ThingId, Line>;
	readonly groups: ReadonlyMap<ThingId, Group>;
	readonly spawns: ReadonlyMap<ThingId, Spawn>;
	/** By every id of a bag; joined bags are one object under several keys. */
	readonly bags: ReadonlyMap<ThingId, Bag>;
	readonly exchanges: ReadonlyMap<ThingId, Exchange>;
	readonly meetings: ReadonlyMap<ThingId, Meeting>;
}
