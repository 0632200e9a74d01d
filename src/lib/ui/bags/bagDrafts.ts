/** What is written about a bag. */
import type { Draft, EntryId, ThingId } from '#records/entry.ts';
import type { BagContent, BagTo, Fish } from '#records/state.ts';

export interface BagSaid {
	readonly bag: ThingId;
	/** As records keep it; '' = no label, or nothing new to say of it. */
	readonly number?: string;
	readonly line?: ThingId | null;
	readonly contents?: readonly BagContent[];
	readonly fromRoom?: ThingId | null;
	/** null = not said. */
	readonly to?: BagTo | null;
	readonly meeting?: ThingId | null;
	readonly exchange?: ThingId | null;
	readonly note?: string;
}

/** Things that are named, each once. */
function about(...ids: readonly (ThingId | null | undefined)[]): ThingId[] {
	return [...new Set(ids.filter((id) => id !== null && id !== undefined))];
}

export function bagged(said: BagSaid, happened: string): Draft {
	const {
		bag,
		number = '',
		line = null,
		contents = [],
		fromRoom = null,
		to = null,
		meeting = null,
		exchange = null,
		note = ''
	} = said;
	const toRoom = to?.to === 'room' ? to.room : null;
	return {
		kind: 'bag/bagged',
		happened,
		about: about(bag, line, fromRoom, toRoom, exchange, meeting, ...contents.map((content) => content.group)),
		body: { bag, number, line, contents, fromRoom, to, meeting, exchange, note }
	};
}

export function handedOver(
	bag: ThingId,
	happened: string,
	fromRoom: ThingId | null,
	toRoom: ThingId | null,
	meeting: ThingId | null
): Draft {
	return {
		kind: 'bag/handedOver',
		happened,
		about: about(bag, fromRoom, toRoom, meeting),
		body: { bag, fromRoom, toRoom, meeting }
	};
}

export interface ArrivalSaid {
	readonly bag: ThingId;
	readonly room: ThingId;
	/** The group that the fish are from now on. */
	readonly group: ThingId;
	readonly line: ThingId | null;
	readonly alive: Fish;
	readonly dead: number;
	readonly certainty: 'counted' | 'about';
	readonly tank: string;
}
export function arrived(said: ArrivalSaid, happened: string): Draft {
	return {
		kind: 'bag/arrived',
		happened,
		about: about(said.bag, said.room, said.group, said.line),
		body: { ...said }
	};
}

export function dayCount(
	bag: ThingId,
	happened: string,
	room: ThingId | null,
	alive: number,
	note: string
): Draft {
	return { kind: 'bag/dayCount', happened, about: about(bag, room), body: { bag, room, alive, note } };
}

export function givenBack(bag: ThingId, happened: string, room: ThingId | null): Draft {
	return { kind: 'bag/givenBack', happened, about: about(bag, room), body: { bag, room, note: '' } };
}

export function failed(
	bag: ThingId,
	happened: string,
	room: ThingId | null,
	how: 'died' | 'lost' | 'elsewhere',
	note: string
): Draft {
	return { kind: 'bag/failed', happened, about: about(bag, room), body: { bag, room, how, note } };
}

export function differencesSettled(
	bag: ThingId,
	happened: string,
	room: ThingId | null,
	note: string
): Draft {
	return { kind: 'bag/settled', happened, about: about(bag, room), body: { bag, room, note } };
}

export function oneBag(bags: readonly ThingId[], happened: string, meeting: ThingId | null): Draft {
	return { kind: 'bag/joined', happened, about: bags, body: { bags, meeting } };
}

export function differentBags(bags: readonly ThingId[], happened: string, meeting: ThingId | null): Draft {
	return { kind: 'bag/parted', happened, about: bags, body: { bags, meeting } };
}

/** One tap: what somebody else told is so. */
export function saysSoToo(entry: EntryId, thing: ThingId, happened: string): Draft {
	return { kind: 'word/confirmed', happened, about: [thing], body: { entry } };
}
