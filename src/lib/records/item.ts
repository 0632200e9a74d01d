/** One entry inside the fold: parsed once, with what the fold worked out about it. */
import type { Entry, EntryId, Stamp, ThingId } from './entry.ts';
import type { When } from './happened.ts';
import { happened } from './happened.ts';
import type { Kind, ThingRef } from './kind.ts';
import { kinds } from './kinds.ts';
import { idTime, ownRank } from './rank.ts';
import type { Verdict } from './state.ts';

export interface Item {
	readonly entry: Entry;
	readonly kind: Kind<unknown> | null;
	readonly body: unknown;
	readonly when: When | null;
	readonly things: readonly ThingRef[];
	readonly corrects: readonly EntryId[];
	readonly speaksOf: readonly EntryId[];
	/** Why it is not understood; '' = it is. */
	readonly problem: string;
	stamp: Stamp | null;
	own: string;
	rank: string;
	/** Where its effect stands: a correction takes the place of the first of what it corrects. */
	place: string;
	inCircle: boolean;
	verdict: Verdict;
}

const unjudged: Verdict = { name: 'waiting', why: 'not looked at yet' };
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
	const own = ownRank(entry, idTime(entry.id) ?? 0, stamp);
	const understood = problem === '' && kind !== null;
	return {
		// The parsed body holds known fields only: nothing that an entry adds to it can reach the state.
		entry: understood ? { ...entry, body: read.body } : entry,
		kind,
		body: read.body,
		when,
		things: understood ? kind.things(read.body) : noThings,
		corrects: entry.corrects ?? noIds,
		speaksOf: understood ? (kind.speaksOf?.(read.body) ?? noIds) : noIds,
		problem,
		stamp,
		own,
		rank: own,
		place: own,
		inCircle: false,
		verdict: unjudged
	};
}

function readBody(entry: Entry, kind: Kind<unknown> | null): { body: unknown; problem: string } {
	if (!kind) return { body: null, problem: 'it is from a newer version of the app' };
	if (entry.version > kind.version) return { body: null, problem: 'it is from a newer version of the app' };
	let body = entry.body;
	for (const step of kind.upgrades ?? []) if (entry.version < step.to) body = step.up(body);
	const parsed = kind.schema.safeParse(body);
	return parsed.success
		? { body: parsed.data, problem: '' }
		: { body: null, problem: 'it is not well formed' };
}

/** The ids to list an entry under: its things; for one not understood, what its envelope says. */
export function listedUnder(item: Item): readonly ThingId[] {
	return item.problem === '' ? item.things.map((thing) => thing.id) : item.entry.about;
}
