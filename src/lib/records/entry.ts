/**
 * The envelope that every statement travels in. An entry is plain JSON, written once and never edited.
 * design: DEVELOPERS.md, "Entries and the fold".
 */

/** UUID version 7 (RFC 9562), lower case; its first 48 bits are milliseconds since 1970. */
export type EntryId = string;
/** Id of a line, room, group, spawn, bag, exchange, meeting or member: made by whoever first told of it. */
export type ThingId = string;
export type MemberId = string;
export type DeviceId = string;

export interface Entry {
	readonly id: EntryId;
	/** `subject/verb`, for example `bag/bagged`; see kinds.ts. */
	readonly kind: string;
	/** Version of that kind's body. */
	readonly version: number;
	/** The member who writes; `club` for the server's own entries. */
	readonly by: MemberId;
	readonly device: DeviceId;
	/** The member (id) or person (plain words) for whom `by` typed this. */
	readonly toldBy?: string;
	/** ISO 8601-2: `2026-03-14T19:20+00:00`, `2026-03-14`, `2026-03`, `2026-03~`, `2026-03-01/2026-03-20`. */
	readonly happened: string;
	/** Ids of the things it concerns, so that an app that does not know the kind can still mark them. */
	readonly about: readonly ThingId[];
	/** Ids of the entries that it replaces: all that the writer had seen. */
	readonly corrects?: readonly EntryId[];
	/** Why it corrects them, in the writer's words; for people alone. */
	readonly because?: string;
	/** Ids of all entries of the same writing (this one included): accepted in one commit or not at all. */
	readonly together?: readonly EntryId[];
	readonly body: unknown;
}

/** The server's word on an entry: its number in the club and the time of acceptance (ms since 1970). */
export interface Stamp {
	readonly id: EntryId;
	readonly n: number;
	readonly time: number;
}

/** What a screen gives to be written; the device adds id, by, device and version. */
export interface Draft<Body = unknown> {
	readonly kind: string;
	readonly happened: string;
	readonly about: readonly ThingId[];
	readonly toldBy?: string;
	readonly corrects?: readonly EntryId[];
	readonly because?: string;
	readonly body: Body;
}

/** Who hears an entry: the whole club, the keepers of one room at one time, or officers and coordinators. */
export type Audience = 'club' | 'officers' | `room:${string}`;
