/** One entry inside the fold: parsed once, with what the fold worked out about it. */
import type { Authority, MemberRights } from './authority.ts';
import type { Dossier, Dossiers, Subject } from './dossier.ts';
import type { Entry, EntryId, Stamp } from './entry.ts';
import type { When } from './happened.ts';
import { happened } from './happened.ts';
import type { Kind, ThingRef } from './kind.ts';
import { kinds } from './kinds.ts';
import { idTime, ownRank, type Rank } from './rank.ts';
import { readBody } from './readBody.ts';
import type { Verdict } from './state.ts';

export interface Item {
	readonly entry: Entry;
	readonly kind: Kind<unknown> | null;
	/** null for an entry that is not understood. */
	readonly body: unknown;
	readonly when: When | null;
	readonly things: readonly Subject<Item>[];
	/** The dossiers to list it in: its things'; for one not understood, those that its envelope names. */
	readonly listed: readonly Dossier<Item>[];
	readonly corrects: readonly EntryId[];
	readonly speaksOf: readonly EntryId[];
	/** Why it is not understood; '' = it is. */
	readonly problem: string;
	/** What its writer may do. */
	readonly rights: MemberRights;
	stamp: Stamp | null;
	own: Rank;
	rank: Rank;
	/** Where its effect stands: a correction takes the place of the first of what it corrects. */
	place: Rank;
	/** Entries that correct it or speak of it; null = there never was one. */
	referrers: Set<Item> | null;
	inCircle: boolean;
	/** Corrects or takes back a confirming tap, directly or through others. */
	overTap: boolean;
	verdict: Verdict;
	/** Waits in the judging queue. */
	queued: boolean;
	/** The things it is about were made anew since it came. */
	isTold: boolean;
}

/** Where an item finds what it has in common with others, and how its dates are read. */
export interface Surroundings {
	readonly dossiers: Dossiers<Item>;
	readonly authority: Authority;
	readonly timeZone: string;
}

const unjudged: Verdict = { name: 'waiting', why: 'not looked at yet' };
const counts: Verdict = { name: 'counts', why: '' };
const noThings: readonly Subject<Item>[] = [];
const noDossiers: readonly Dossier<Item>[] = [];
const noIds: readonly string[] = [];

/** Parses an entry for the fold. A kind or version that this app does not know is kept and marks what it is about. */
export function makeItem(entry: Entry, stamp: Stamp | null, surroundings: Surroundings): Item {
	const kind = kinds.get(entry.kind) ?? null;
	const when = happened(entry.happened, surroundings.timeZone);
	const read = readBody(entry, kind);
	const problem = read.problem || (when ? '' : 'its date cannot be read');
	// The body that was read holds known fields only: nothing that an entry adds to it can reach the state. It is of
	// the kind's newest version, so that nothing is upgraded twice.
	const isAsWritten = problem !== '' || !kind || (read.body === entry.body && entry.version === kind.version);
	const asUnderstood = isAsWritten ? entry : { ...entry, version: kind.version, body: read.body };
	return buildItem(asUnderstood, kind, when, problem, stamp, surroundings);
}

function buildItem(
	entry: Entry,
	kind: Kind<unknown> | null,
	when: When | null,
	problem: string,
	stamp: Stamp | null,
	{ dossiers, authority }: Surroundings
): Item {
	const understood = problem === '' && kind !== null;
	const clock = idTime(entry.id) ?? 0;
	const own = ownRank(stamp === null ? clock : Math.min(clock, stamp.time), entry.id);
	const things = understood ? subjectsOf(kind, entry.body, dossiers) : noThings;
	return {
		entry,
		kind,
		body: understood ? entry.body : null,
		when,
		things,
		listed: understood ? dossiersOf(things) : [...new Set(entry.about)].map((id) => dossiers.of(id)),
		corrects: entry.corrects ?? noIds,
		speaksOf: understood && kind.speaksOf ? kind.speaksOf(entry.body) : noIds,
		problem,
		rights: authority.of(entry.by),
		stamp,
		own,
		rank: own,
		place: own,
		referrers: null,
		inCircle: false,
		overTap: false,
		verdict: unjudged,
		queued: false,
		isTold: false
	};
}

function subjectsOf(kind: Kind<unknown>, body: unknown, dossiers: Dossiers<Item>): readonly Subject<Item>[] {
	const refs = kind.things(body);
	const first = refs[0];
	if (!first) return noThings;
	const subject = dossiers.of(first.id).subject(first.type);
	if (refs.length === 1) return subject.alone;
	const subjects = [subject];
	for (let i = 1; i < refs.length; i++) {
		const ref = refs[i] as ThingRef;
		const other = dossiers.of(ref.id).subject(ref.type);
		if (!subjects.includes(other)) subjects.push(other);
	}
	return subjects;
}

function dossiersOf(things: readonly Subject<Item>[]): readonly Dossier<Item>[] {
	const first = things[0];
	if (!first) return noDossiers;
	if (things.length === 1) return first.dossier.alone;
	const dossiers: Dossier<Item>[] = [];
	for (const { dossier } of things) if (!dossiers.includes(dossier)) dossiers.push(dossier);
	return dossiers;
}

/** What of an item is saved: all else follows from the entries, and is found again faster than it is read. */
interface SavedItem {
	readonly entry: Entry;
	/** Only where there is one. */
	readonly problem?: string;
	readonly stamp?: Stamp;
	/** Only where it does not count. */
	readonly verdict?: Verdict;
}

/** An item as text: a long list of texts is copied and stored many times faster than a forest of small objects. */
export function saveItem(item: Item): string {
	const { entry, problem, stamp, verdict } = item;
	const saved: SavedItem = {
		entry,
		...(problem ? { problem } : {}),
		...(stamp ? { stamp } : {}),
		...(verdict.name === 'counts' ? {} : { verdict })
	};
	return JSON.stringify(saved);
}

export function restoreItem(text: string, surroundings: Surroundings): Item {
	const { entry, problem = '', stamp = null, verdict = counts } = JSON.parse(text) as SavedItem;
	const when = happened(entry.happened, surroundings.timeZone);
	const item = buildItem(entry, kinds.get(entry.kind) ?? null, when, problem, stamp, surroundings);
	item.verdict = verdict;
	return item;
}
