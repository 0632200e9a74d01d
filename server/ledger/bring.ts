/**
 * An officer brings entries of someone who can no longer sign in, from a saved file: text and id unchanged, in the
 * server's own log, and the row notes who brought them.
 */
import { limits } from '#protocol/limits.ts';
import type { RefusalReason } from '#protocol/messages.ts';
import type { Whereabouts } from '#server/storage/storage.ts';
import type { OpenDocument } from './openDocument.ts';
import { readEnvelope, type Envelope } from './readEnvelope.ts';
import type { Stage } from './stage.ts';
import type { StampRules } from './submit.ts';

export type Brought =
	{ readonly id: string; readonly n: number } | { readonly id: string; readonly reason: RefusalReason };

interface Candidate {
	readonly text: string;
	readonly entry: Envelope;
}

export async function bring(
	stage: Stage,
	audience: string,
	texts: readonly string[],
	officer: string,
	{ needsStamp, now }: StampRules
): Promise<readonly Brought[]> {
	const document = stage.documentOf(audience);
	if (!document) throw new RangeError(`bring requires an open audience, got ${audience}`);
	const envelopes = texts.map((text) => ({ text, entry: readEnvelope(text) }));
	const ids = envelopes.flatMap(({ entry }) => (entry ? [entry.id, ...entry.together] : []));
	const found = await stage.find([...new Set(ids)]);
	const judged = judge(envelopes, document, stage, found);

	const accepted = judged.taken.map(({ text, entry }) => ({
		id: entry.id,
		place: null,
		text,
		member: entry.by,
		device: entry.device,
		broughtBy: officer,
		isStamped: entry.time > now || needsStamp(entry.entry)
	}));
	const rows = await stage.accept(document, accepted, []);
	return [...judged.answers, ...rows.map(({ id, n }) => ({ id, n }))];
}

function judge(
	texts: readonly { text: string; entry: Envelope | null }[],
	document: OpenDocument,
	stage: Stage,
	found: ReadonlyMap<string, Whereabouts>
): { answers: Brought[]; taken: Candidate[] } {
	const view = stage.view(document, found);
	const answers: Brought[] = [];
	const taken = new Map<string, Candidate>();
	for (const { text, entry } of texts) {
		if (!entry) answers.push({ id: '', reason: 'not-an-entry' });
		else if (Buffer.byteLength(text) > limits.maxEntryBytes)
			answers.push({ id: entry.id, reason: 'too-large' });
		else {
			const known = view.isKnown(entry.id, text);
			if (known === 'same') answers.push({ id: entry.id, n: found.get(entry.id)?.n ?? 0 });
			else if (known) answers.push({ id: entry.id, reason: known });
			// The server's own entries are taken from nobody.
			else if (entry.by === 'club') answers.push({ id: entry.id, reason: 'not-yours' });
			else if ((taken.get(entry.id)?.text ?? text) !== text)
				answers.push({ id: entry.id, reason: 'other-text' });
			else taken.set(entry.id, { text, entry });
		}
	}
	// A writing comes whole or not at all; leaving one entry out may break another writing.
	for (let changed = true; changed;) {
		changed = false;
		for (const [id, { entry }] of taken) {
			if (entry.together.every((other) => taken.has(other) || found.has(other))) continue;
			taken.delete(id);
			answers.push({ id, reason: 'together-broken' });
			changed = true;
		}
	}
	return { answers, taken: [...taken.values()] };
}
