/** One entry inside the fold: parsed once, with what the fold worked out about it. */
import type { Entry, EntryId, Stamp, ThingId } from './entry.ts';
import type { When } from './happened.ts';
import { happened } from './happened.ts';
import type { Kind, ThingRef } from './kind.ts';
import { kinds } from './kinds.ts';
import { idTime, ownRank } from './rank.ts';
import type { Verdict } from './state.ts';
import { readBody } from './readBody.ts';

export interface Item {
	readonly entry: Entry;
	readonly kind: Kind<unknown> | null;
	readonly body: unknown;
	readonly when: When | null;
	readonly things: readonly ThingRef[];
	/** The ids to list it under, each once: its things; for one not understood, what its envelope says. */
	readonly listed: readonly ThingId[];
	readonly corrects: readonly EntryId[];
	readonly speaksOf: readonly EntryId[];
	/** Why it is not understood; '' = it is. */
	readonly problem: string;
	stamp: Stamp | null;
	/** The time that its own rank begins with, ms since 1970. */
	time: number;
	own: string;
	rank: string;
	/** Where its effect stands: a correction takes the place of the first of what it corrects. */
	place: string;
	inCircle: boolean;
	/** Some entry corrects it or speaks of it, or did. */
	isNamed: boolean;
	/** Corrects or takes back a confirming tap, directly or through others. */
	overTap: boolean;
	verdict: Verdict;
	/** Waits in the judging queue. */
	queued: boolean;
}

const unjudged: Verdict = { name: 'waiting', why: 'not looked at yet' };
const counts: Verdict = { name: 'counts', why: '' };
const noThings: readonly ThingRef[] = [];
const noIds: readonly string[] = [];

/** Reads an entry's text; a malformed one becomes null (it has no id that anything could name). */
export function readEntry(text: string): Entry | null {
	try {
		const value: unknown = JSON.parse(text);
		return isEnvelope(value) ? value : null;
	} catch {
		return null;
	}
}

/** Whether a value has the envelope of an entry: what every app, of whatever version, can rely on. */
export function isEnvelope(value: unknown): value is Entry {
	if (typeof value !== 'object' || value === null) return false;
	const entry = value as Record<string, unknown>;
	return (
		typeof entry.id === 'string' &&
		idTime(entry.id) !== null &&
		typeof entry.kind === 'string' &&
		Number.isSafeInteger(entry.version) &&
		typeof entry.by === 'string' &&
		typeof entry.device === 'string' &&
		typeof entry.happened === 'string' &&
		isStrings(entry.about) &&
		(entry.corrects === undefined || isStrings(entry.corrects)) &&
		(entry.together === undefined || isStrings(entry.together)) &&
		(entry.toldBy === undefined || typeof entry.toldBy === 'string')
	);
}

function isStrings(value: unknown): value is string[] {
	return Array.isArray(value) && value.length <= 200 && value.every((one) => typeof one === 'string');
}

/** Parses an entry for the fold. A kind or version that this app does not know is kept and marks what it is about. */
export function makeItem(entry: Entry, stamp: Stamp | null, timeZone: string): Item {
	const kind = kinds.get(entry.kind) ?? null;
	const when = happened(entry.happened, timeZone);
	const read = readBody(entry, kind);
	const problem = read.problem || (when ? '' : 'its date cannot be read');
	// The parsed body holds known fields only: nothing that an entry adds to it can reach the state. It is of the
	// kind's newest version, so that nothing is upgraded twice.
	const isAsWritten = problem !== '' || !kind || (read.body === entry.body && entry.version === kind.version);
	const asUnderstood = isAsWritten ? entry : { ...entry, version: kind.version, body: read.body };
	return buildItem(asUnderstood, kind, when, problem, stamp);
}

function buildItem(
	entry: Entry,
	kind: Kind<unknown> | null,
	when: When | null,
	problem: string,
	stamp: Stamp | null
): Item {
	const understood = problem === '' && kind !== null;
	const clock = idTime(entry.id) ?? 0;
	const time = stamp === null ? clock : Math.min(clock, stamp.time);
	const own = ownRank(time, entry.id);
	const things = understood ? kind.things(entry.body) : noThings;
	return {
		entry,
		kind,
		body: understood ? entry.body : null,
		when,
		things,
		listed: eachOnce(understood ? things.map((thing) => thing.id) : entry.about),
		corrects: entry.corrects ?? noIds,
		speaksOf: understood ? (kind.speaksOf?.(entry.body) ?? noIds) : noIds,
		problem,
		stamp,
		time,
		own,
		rank: own,
		place: own,
		inCircle: false,
		isNamed: false,
		overTap: false,
		verdict: unjudged,
		queued: false
	};
}

function eachOnce(ids: readonly ThingId[]): readonly ThingId[] {
	return ids.length < 2 ? ids : [...new Set(ids)];
}

/** What of an item is saved: what follows from the entry alone is found again faster than it is read. */
interface SavedItem {
	readonly entry: Entry;
	/** Only where there is one. */
	readonly problem?: string;
	readonly stamp?: Stamp;
	/** Only where it does not count. */
	readonly verdict?: Verdict;
	/** Only where they differ from the item's own rank. */
	readonly rank?: string;
	readonly place?: string;
	readonly inCircle?: true;
	readonly overTap?: true;
}

/** An item as text: a long list of texts is copied and stored many times faster than a forest of small objects. */
export function saveItem(item: Item): string {
	const { entry, problem, stamp, verdict, own, rank, place, inCircle, overTap } = item;
	const saved: SavedItem = {
		entry,
		...(problem ? { problem } : {}),
		...(stamp ? { stamp } : {}),
		...(verdict.name === 'counts' ? {} : { verdict }),
		...(rank === own ? {} : { rank }),
		...(place === own ? {} : { place }),
		...(inCircle ? { inCircle } : {}),
		...(overTap ? { overTap } : {})
	};
	return JSON.stringify(saved);
}

export function restoreItem(text: string, timeZone: string): Item {
	const saved = JSON.parse(text) as SavedItem;
	const { entry, problem = '', stamp = null } = saved;
	const when = happened(entry.happened, timeZone);
	const item = buildItem(entry, kinds.get(entry.kind) ?? null, when, problem, stamp);
	item.rank = saved.rank ?? item.own;
	item.place = saved.place ?? item.own;
	item.inCircle = saved.inCircle ?? false;
	item.overTap = saved.overTap ?? false;
	item.verdict = saved.verdict ?? counts;
	return item;
}
