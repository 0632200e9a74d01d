/**
 * One update of a device, judged and put into rows inside the group's transaction.
 */
import type { RefusalReason } from '#protocol/messages.ts';
import type { Entry } from '#records/entry.ts';
import type { Binding } from '#server/storage/storage.ts';
import { guard, type Verdict, type Writer } from './guard.ts';
import { readEnvelope } from './readEnvelope.ts';
import type { BrokenRule, Struct } from './readStructs.ts';
import type { Accepted, Stage } from './stage.ts';
import { sortTogether, type Take } from './together.ts';

export interface Submission {
	readonly document: string;
	readonly writer: Writer;
	readonly structs: readonly Struct[];
	/** Whether the device sent all that it has of a log, so that what is missing there will not come. */
	isWhole(client: number): boolean;
}

export interface Outcome {
	readonly broken: BrokenRule | null;
	/** The document was closed meanwhile. */
	readonly isMoved: boolean;
	/** Entry -> number of its first row. */
	readonly accepted: readonly (readonly [id: string, n: number])[];
	readonly refused: readonly { readonly id: string; readonly reason: RefusalReason }[];
	/** Places of writings of which only a part came: the device is asked to send all from there. */
	readonly incomplete: readonly { readonly client: number; readonly clock: number }[];
	/** The other verdicts, for the connection to answer. */
	readonly others: readonly Verdict[];
	/** Numbers of the rows that were made. */
	readonly rows: readonly number[];
}

const nothing: Outcome = {
	broken: null,
	isMoved: false,
	accepted: [],
	refused: [],
	incomplete: [],
	others: [],
	rows: []
};

/** Ids of writings looked up for one update, at most; the rest counts as missing. */
const maxLookups = 2_000;

function idsToFind(structs: readonly Struct[]): string[] {
	const ids = new Set<string>();
	const named = new Set<string>();
	for (const { text } of structs) {
		const entry = readEnvelope(text);
		if (!entry) continue;
		ids.add(entry.id);
		for (const id of entry.together) if (named.size < maxLookups) named.add(id);
	}
	return [...new Set([...ids, ...named])];
}

export interface StampRules {
	/** Whether an entry is a decision; from the records. */
	readonly needsStamp: (entry: Entry) => boolean;
	readonly now: number;
}

export async function submit(stage: Stage, submission: Submission, rules: StampRules): Promise<Outcome> {
	const { writer, structs } = submission;
	const document = stage.document(submission.document);
	if (!document) return { ...nothing, isMoved: true };

	const found = await stage.find(idsToFind(structs));
	const verdicts = guard(structs, stage.view(document, found), writer);
	if (typeof verdicts === 'string') return { ...nothing, broken: verdicts };

	const takes = verdicts.filter((verdict): verdict is Take => verdict.verdict === 'take');
	const { complete, waiting, broken } = sortTogether(takes, (id) => found.has(id));
	const refused = verdicts.flatMap((verdict) =>
		verdict.verdict === 'refused' ? [{ id: verdict.id, reason: verdict.reason }] : []
	);

	const repeated = new Set(found.keys());
	const made = await stage.accept(
		document,
		complete.map((take) => {
			const isRepeated = repeated.has(take.entry.id);
			repeated.add(take.entry.id);
			return accepted(take, writer, rules, isRepeated);
		}),
		newBindings(complete, document.name, writer)
	);
	const haves = verdicts.flatMap((verdict) => (verdict.verdict === 'have' ? [verdict.id] : []));
	const known = await stage.find([...haves, ...complete.map(({ entry }) => entry.id)]);
	const brokenUp = broken.flatMap(({ entry, struct }) =>
		submission.isWhole(struct.client) ? [{ id: entry.id, reason: 'together-broken' as const }] : []
	);
	return {
		broken: null,
		isMoved: false,
		accepted: [...known.values()].map(({ id, n }) => [id, n] as const),
		refused: [...refused, ...brokenUp],
		incomplete: firstWaiting(waiting, submission),
		others: verdicts.filter(({ verdict }) => !['take', 'have', 'ignore', 'refused'].includes(verdict)),
		rows: made.map(({ n }) => n)
	};
}

function accepted({ struct, entry }: Take, writer: Writer, rules: StampRules, isRepeated: boolean): Accepted {
	return {
		id: entry.id,
		place: { client: struct.client, clock: struct.clock },
		text: struct.text,
		member: writer.member,
		device: writer.device,
		broughtBy: null,
		// The first row of an entry carries its stamp; the same entry in another log needs none.
		isStamped: !isRepeated && (entry.time > rules.now || rules.needsStamp(entry.entry))
	};
}

function firstWaiting(waiting: readonly Take[], { isWhole }: Submission) {
	const first = new Map<number, number>();
	for (const { struct } of waiting)
		if (!isWhole(struct.client) && struct.clock < (first.get(struct.client) ?? Infinity))
			first.set(struct.client, struct.clock);
	return [...first].map(([client, clock]) => ({ client, clock }));
}

function newBindings(takes: readonly Take[], document: string, { member, device }: Writer): Binding[] {
	const clients = new Set(takes.flatMap((take) => (take.binds ? [take.struct.client] : [])));
	return [...clients].map((client) => ({ document, client, member, device }));
}
