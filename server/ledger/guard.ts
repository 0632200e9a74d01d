/**
 * The guard: which structs of a device's update may become rows.
 *
 * Threats. Whoever may write to a Yjs document can ruin it: delete what others wrote, set their keys anew, use their
 * client id so that their own edits are dropped, leave a gap that makes every later update wait for ever, or send
 * content that costs a fortune to build. A stolen or broken device must not be able to do any of it, and must not be
 * able to speak in another's name. So nothing is applied before it was judged here, bytes of a device are never
 * applied or passed on at all, and a connection can do one thing only: extend its own logs by entries of its own.
 *
 * What it does not do: judge content. Whether an entry counts is for the fold, so an honest device of whatever
 * version is never stuck; each verdict below either takes the struct, or tells the device something that it can act
 * upon by itself. Only what no honest device can send closes the connection, and nobody else is touched. The next
 * struct of a foreign log is not among that: a device whose own log was bound by another, or that holds what a
 * restored server lost, sends the same. It is never taken, and the device is told to fetch anew.
 *
 * Pure: bytes (readStructs.ts) and what the server has, to verdicts; no disk, no clock, no socket.
 */
import { documentKey, entriesRoot, stampsRoot } from '#protocol/document.ts';
import { limits, serverClientId } from '#protocol/limits.ts';
import type { RefusalReason } from '#protocol/messages.ts';
import { readEnvelope, type Envelope } from './readEnvelope.ts';
import type { BrokenRule, Struct } from './readStructs.ts';

/** Who is at the other end of the connection. */
export interface Writer {
	readonly member: string;
	readonly device: string;
	/** Devices that this member has or had: entries from a saved file name the device that wrote them. */
	readonly devices: ReadonlySet<string>;
}

/** What the server has, caught up with every committed row. */
export interface GuardView {
	/** To whom a log is bound; null = to nobody yet. */
	owner(client: number): { readonly member: string; readonly device: string } | null;
	/** Next clock of a log. */
	next(client: number): number;
	/** Text at a place that the server has. */
	textAt(client: number, clock: number): string;
	/** What the club knows of an id: the text it must have, or why it is refused whatever its text. */
	isKnown(id: string, text: string): 'same' | 'other-text' | 'erased' | null;
}

export type Verdict =
	| { readonly verdict: 'take'; readonly struct: Struct; readonly entry: Envelope; readonly binds: boolean }
	| { readonly verdict: 'have'; readonly id: string }
	| { readonly verdict: 'ignore' }
	| { readonly verdict: 'log-damaged'; readonly client: number }
	| { readonly verdict: 'gap'; readonly client: number; readonly clock: number; readonly first: number }
	| { readonly verdict: 'fetch-anew' }
	| {
			readonly verdict: 'refused';
			readonly id: string;
			readonly reason: RefusalReason;
			readonly client: number;
	  };

/** A rule about places that every struct must keep, whoever's it is: what no honest device can break. */
function brokenRule({ client, clock, root, key }: Struct): BrokenRule | null {
	if (root !== entriesRoot && !(root === stampsRoot && client === serverClientId)) return 'other-root';
	return key === documentKey(client, clock) ? null : 'other-key';
}

function refusal(
	struct: Struct,
	entry: Envelope | null,
	view: GuardView,
	writer: Writer
): RefusalReason | null {
	// At most 3 bytes of UTF-8 for a UTF-16 unit: most texts need no measuring.
	if (struct.text.length * 3 > limits.maxEntryBytes && Buffer.byteLength(struct.text) > limits.maxEntryBytes)
		return 'too-large';
	if (!entry) return 'not-an-entry';
	if (entry.by !== writer.member || !writer.devices.has(entry.device)) return 'not-yours';
	const known = view.isKnown(entry.id, struct.text);
	return known === 'same' ? null : known;
}

/**
 * Judges the structs of one update in their order.
 *
 * @returns a verdict for each, or the rule that the update breaks (then nothing of it is taken). What follows a
 * refused struct in its log gets no verdict: the device goes on without it in a new log.
 */
export function guard(
	structs: readonly Struct[],
	view: GuardView,
	writer: Writer
): readonly Verdict[] | BrokenRule {
	for (const struct of structs) {
		const broken = brokenRule(struct);
		if (broken) return broken;
	}
	const verdicts: Verdict[] = [];
	/** Next clocks, with what this update adds; Infinity = nothing more of this log. */
	const next = new Map<number, number>();
	const bound = new Set<number>();
	const taken = new Map<string, string>();

	for (const struct of structs) {
		const { client, clock, text } = struct;
		const has = view.next(client);
		const expected = next.get(client) ?? has;
		if (expected === Infinity) continue;
		const owner = view.owner(client);
		const isOwn = owner !== null && owner.member === writer.member && owner.device === writer.device;
		if (clock < has) {
			const isSame = view.textAt(client, clock) === text;
			if (isOwn && isSame) verdicts.push({ verdict: 'have', id: readEnvelope(text)?.id ?? '' });
			else if (isSame) verdicts.push({ verdict: 'ignore' });
			else verdicts.push(isOwn ? { verdict: 'log-damaged', client } : { verdict: 'fetch-anew' });
			if (!isSame) next.set(client, Infinity);
			continue;
		}
		const entry = readEnvelope(text);
		const isFree = owner === null && client !== serverClientId;
		// An unbound log with another member's entries is a log that the server lost, not the start of an own one.
		const mayBegin = isFree && (bound.has(client) || entry === null || entry.by === writer.member);
		if (!isOwn && !mayBegin) {
			verdicts.push({ verdict: 'fetch-anew' });
			next.set(client, Infinity);
		} else if (client < limits.lowestClientId || client > limits.highestClientId) {
			// Yjs itself draws such ids when it meets its own in another's update.
			verdicts.push({ verdict: 'log-damaged', client });
			next.set(client, Infinity);
		} else if (clock !== expected) {
			verdicts.push({ verdict: 'gap', client, clock: expected, first: clock });
			next.set(client, Infinity);
		} else {
			const twice = entry && taken.has(entry.id) && taken.get(entry.id) !== text ? 'other-text' : null;
			const reason = refusal(struct, entry, view, writer) ?? twice;
			if (reason) {
				verdicts.push({ verdict: 'refused', id: entry?.id ?? '', reason, client });
				next.set(client, Infinity);
			} else if (entry) {
				verdicts.push({ verdict: 'take', struct, entry, binds: owner === null && !bound.has(client) });
				bound.add(client);
				taken.set(entry.id, text);
				next.set(client, clock + 1);
			}
		}
	}
	return verdicts;
}
