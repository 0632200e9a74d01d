/**
 * One update of a device, judged and put into rows inside the group's transaction.
 */
import { limits } from '#protocol/limits.ts';
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
	/** Structs of a writing that waited for the rest, then the new ones. */
	readonly structs: readonly Struct[];
	/** Whether the device sent all that it holds (the answer to a sync), so that nothing more can be waited for. */
	readonly isWhole: boolean;
	/** Ids refused earlier on this connection: a writing that names one of them never becomes complete. */
	readonly refusedBefore: ReadonlySet<string>;
	/** Told, inside the transaction, what waits now: the next update of the same group must find it. */
	readonly onWaiting: (structs: readonly Struct[]) => void;
}

export interface Outcome {
	readonly broken: BrokenRule | null;
	/** The document was closed meanwhile. */
	readonly isMoved: boolean;
	/** Entry -> number of its first row. */
	readonly accepted: readonly (readonly [id: string, n: number])[];
	readonly refused: readonly { readonly id: string; readonly reason: RefusalReason }[];
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
	const never = new Set([...submission.refusedBefore, ...refused.map(({ id }) => id)]);
	const isHopeless = broken.some(({ entry }) => entry.together.some((id) => never.has(id)));
	const isTooMuch = waiting.length > limits.maxTogether * 2;
	const isRefused = submission.isWhole || isTooMuch || isHopeless;

	submission.onWaiting(isRefused ? [] : waiting.map(({ struct }) => struct));

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
	const brokenUp = broken.map(({ entry }) => ({ id: entry.id, reason: 'together-broken' as const }));
	return {
		broken: null,
		isMoved: false,
		accepted: [...known.values()].map(({ id, n }) => [id, n] as const),
		refused: isRefused ? [...refused, ...brokenUp] : refused,
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

function newBindings(takes: readonly Take[], document: string, { member, device }: Writer): Binding[] {
	const clients = new Set(takes.flatMap((take) => (take.binds ? [take.struct.client] : [])));
	return [...clients].map((client) => ({ document, client, member, device }));
}
