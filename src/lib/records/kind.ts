/**
 * What a kind of entry is: its schema, what it does to the club state, who may write it, its sentence for people.
 * One kind per file under kinds/; kinds.ts lists them.
 */
import type { z } from 'zod/mini';
import type { Entry, EntryId, MemberId, ThingId } from './entry.ts';
import type { Bag, Club, Exchange, Group, Line, Meeting, Member, Room, Spawn } from './state.ts';
import type { When } from './happened.ts';

/**
 * - `fact`: what was seen; accepted from any member, counts once somebody with a part in it says so.
 * - `decision`: counts when stamped and allowed.
 * - `tap`: a fact about another entry (confirm, dispute, withdraw), judged where that entry stands.
 * - `server`: written by the server alone.
 * - `private`: words for one room or for officers and coordinators; never changes what others see.
 */
export type Nature = 'fact' | 'decision' | 'tap' | 'server' | 'private';

/** Who may decide; the rules are in rights.ts. */
export type DecisionRule = 'officer' | 'line' | 'room' | 'proposer' | 'side' | 'dispute';

export interface ThingTypes {
	club: Club;
	member: Member;
	room: Room;
	line: Line;
	group: Group;
	spawn: Spawn;
	bag: Bag;
	exchange: Exchange;
	meeting: Meeting;
}
export type ThingType = keyof ThingTypes;
export interface ThingRef {
	readonly type: ThingType;
	readonly id: ThingId;
}

/** An entry as the fold hands it to a kind: parsed, ranked, judged to count, not replaced by a correction. */
export interface Told<Body = unknown> {
	readonly entry: Entry;
	readonly body: Body;
	readonly when: When;
	/** Whether the writer, or somebody who confirmed it, keeps `room` at the time it happened: whose side speaks. */
	keeps(room: ThingId): boolean;
	/** The last moment of an ISO date in the club's time zone, ms since 1970. */
	endOf(day: string): number;
	/** The server's number, where the row is stamped. */
	readonly n: number | null;
}

/** Names of things for sentences; every function gives a plain word even for a thing not heard of yet. */
export interface Names {
	line(id: ThingId): string;
	room(id: ThingId): string;
	group(id: ThingId): string;
	bag(id: ThingId): string;
	member(id: MemberId): string;
	meeting(id: ThingId): string;
	exchange(id: ThingId): string;
	/** The sentence of another entry, for taps and decisions. */
	entry(id: EntryId): string;
}

export interface Kind<Body> {
	readonly kind: string;
	readonly version: number;
	readonly nature: Nature;
	readonly audience: 'club' | 'room' | 'officers';
	readonly decides?: DecisionRule;
	/** What it does depends on whose side speaks (`Told.keeps`): told anew when keepers or confirmations change. */
	readonly asksWhoKeeps?: boolean;
	/** Takes fish from one thing to another: counts once somebody with a part in each of its things says so. */
	readonly partInEach?: boolean;
	readonly schema: z.ZodMiniType<Body>;
	/** From a body of an older version to this one, oldest first; run on read, deterministic, idempotent. */
	readonly upgrades?: readonly { readonly name: string; readonly to: number; up(body: unknown): unknown }[];
	/** The things that the entry is about; the fold derives each of them from its entries. */
	things(body: Body): readonly ThingRef[];
	/** Rooms that this entry puts a thing into, or says that it gives or receives it. */
	places?(body: Body): readonly (readonly [thing: ThingId, room: ThingId])[];
	/** Rooms that the entry names without placing anything: they count only while nobody has placed the thing. */
	rooms?(body: Body): readonly ThingId[];
	/** The line concerned, for its coordinator's rights. */
	line?(body: Body): ThingId | null;
	/** The meeting concerned, for its runner's rights. */
	meeting?(body: Body): ThingId | null;
	/** Entries that it speaks about (confirms, disputes, decides between). */
	speaksOf?(body: Body): readonly EntryId[];
	/** What it does to each type of thing, called once for every thing of `things`, in rank order. */
	readonly apply: { readonly [T in ThingType]?: (thing: ThingTypes[T], told: Told<Body>) => void };
	sentence(body: Body, names: Names): string;
}

/** Keeps each kind's body type inside its own file. */
export function defineKind<Body>(kind: Kind<Body>): Kind<Body> {
	return kind;
}
