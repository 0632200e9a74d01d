/** What the demo club's builder hands over: plain data, everything dated. */
import type { Audience, DeviceId, Entry, MemberId, ThingId } from '#records/entry.ts';
import type { RoleName } from '#records/state.ts';
import type { MemberKey, RoomKey } from './names.ts';

/** What officers asked the server to do, and when (`at`: ms since 1970). `by` null = the server itself. */
export type ClubFact = { readonly at: number; readonly by: MemberId | null } & (
	| { readonly fact: 'club opened' }
	| { readonly fact: 'member joined'; readonly member: MemberId; readonly name: string }
	| { readonly fact: 'member left'; readonly member: MemberId }
	| {
			readonly fact: 'role given' | 'role ended';
			readonly member: MemberId;
			readonly role: RoleName;
			/** Line or meeting; null for officers. */
			readonly of: ThingId | null;
	  }
	| { readonly fact: 'room opened'; readonly room: ThingId; readonly keepers: readonly MemberId[] }
	| { readonly fact: 'keeper added'; readonly room: ThingId; readonly member: MemberId }
);

export interface ScenarioMember {
	readonly id: MemberId;
	readonly key: MemberKey;
	readonly name: string;
	readonly devices: readonly DeviceId[];
}

export interface ScenarioRoom {
	readonly id: ThingId;
	readonly key: RoomKey;
	readonly name: string;
	readonly region: string;
	readonly house: string;
}

/** `audience` of private words names the room alone: its document is the one of those who keep it at that time. */
export interface ScenarioEntry {
	readonly audience: Audience;
	readonly entry: Entry;
	/** When it reached the server, ms since 1970: some waited on a device for days. */
	readonly sharedAt: number;
}

export interface Scenario {
	readonly club: {
		readonly id: string;
		readonly name: string;
		readonly timeZone: string;
		readonly region: string;
	};
	readonly now: number;
	readonly members: readonly ScenarioMember[];
	readonly rooms: readonly ScenarioRoom[];
	/** In order of time. */
	readonly facts: readonly ClubFact[];
	/** In order of writing. */
	readonly entries: readonly ScenarioEntry[];
	/** Bag numbers that these devices were given. */
	readonly numberBlocks: readonly {
		readonly device: DeviceId;
		readonly first: number;
		readonly last: number;
		readonly at: number;
	}[];
	/** Whose accounts the demonstration shows: the coordinating officer and two keepers. */
	readonly shown: readonly MemberKey[];
}
