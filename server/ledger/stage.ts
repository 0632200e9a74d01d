/**
 * A group of writings on its way to the disk: memory plus what earlier parts of the same transaction added. Gives
 * numbers, times and places in the server's log. Memory itself changes only after the commit.
 */
import { createHash } from 'node:crypto';
import { serverClientId } from '#protocol/limits.ts';
import type { Binding, ClubChange, Row, Whereabouts } from '#server/storage/storage.ts';
import type { ClubMemory } from './clubMemory.ts';
import type { GuardView } from './guard.ts';
import type { OpenDocument } from './openDocument.ts';
import { structsOfRow } from './writeStructs.ts';

/** An accepted entry on its way to a row. */
export interface Accepted {
	readonly id: string;
	/** null = in the server's own log. */
	readonly place: { readonly client: number; readonly clock: number } | null;
	readonly text: string;
	readonly member: string;
	readonly device: string;
	readonly broughtBy: string | null;
	readonly isStamped: boolean;
}

export interface Stage {
	readonly rows: readonly Row[];
	readonly bindings: readonly Binding[];
	/** The open document of that name; null = it was closed. */
	document(name: string): OpenDocument | null;
	documentOf(audience: string): OpenDocument | null;
	/** What the guard may ask about a document, knowing the ids that `find` found. */
	view(document: OpenDocument, found: ReadonlyMap<string, Whereabouts>): GuardView;
	/** Where these ids are, this stage's own rows included. */
	find(ids: readonly string[]): Promise<Map<string, Whereabouts>>;
	accept(document: OpenDocument, accepted: readonly Accepted[], bindings: readonly Binding[]): Promise<Row[]>;
	/** Runs one writer's part: if it throws, nothing of it stays. */
	part<Result>(work: () => Promise<Result>): Promise<Result>;
}

const sha256 = (text: string) => createHash('sha256').update(text).digest('hex');

export function createStage(memory: ClubMemory, change: ClubChange, now: number): Stage {
	let rows: Row[] = [];
	let bindings: Binding[] = [];
	/** What this stage added, by document and log: texts by clock, on top of the memory's. */
	let added = new Map<string, Map<number, string[]>>();
	let ids = new Map<string, Whereabouts>();

	const log = (document: OpenDocument, client: number) => added.get(document.name)?.get(client) ?? [];
	const next = (document: OpenDocument, client: number) =>
		(document.logs.get(client)?.length ?? 0) + log(document, client).length;

	function remember(row: Row, audience: string): void {
		let logs = added.get(row.document);
		if (!logs) added.set(row.document, (logs = new Map()));
		for (const { client, text } of structsOfRow(row)) {
			const texts = logs.get(client);
			if (texts) texts.push(text);
			else logs.set(client, [text]);
		}
		if (!ids.has(row.id))
			ids.set(row.id, { id: row.id, audience, n: row.n, where: 'open', textDigest: sha256(row.text) });
	}

	function number(
		document: OpenDocument,
		entry: Accepted,
		n: number,
		time: number,
		serverClock: number
	): Row {
		const { id, text, member, device, broughtBy, isStamped } = entry;
		const place = entry.place ?? { client: serverClientId, clock: serverClock };
		const stampClock = isStamped ? serverClock + (entry.place ? 0 : 1) : null;
		return { n, document: document.name, id, ...place, text, member, device, broughtBy, time, stampClock };
	}

	return {
		get rows() {
			return rows;
		},
		get bindings() {
			return bindings;
		},
		document: (name) => memory.documents.get(name) ?? null,
		documentOf: (audience) => memory.byAudience.get(audience) ?? null,
		view: (document, found) => ({
			owner: (client) =>
				document.bindings.get(client) ??
				bindings.find((binding) => binding.document === document.name && binding.client === client) ??
				null,
			next: (client) => next(document, client),
			textAt(client, clock) {
				const committed = document.logs.get(client) ?? [];
				return committed[clock]?.text ?? log(document, client)[clock - committed.length] ?? '';
			},
			isKnown(id, text) {
				const known = found.get(id);
				if (!known) return null;
				if (known.where === 'erased') return 'erased';
				return known.audience === document.audience && known.textDigest === sha256(text)
					? 'same'
					: 'other-text';
			}
		}),
		async find(asked) {
			const found = new Map<string, Whereabouts>();
			const elsewhere: string[] = [];
			for (const id of asked) {
				const fresh = ids.get(id);
				if (fresh) found.set(id, fresh);
				else elsewhere.push(id);
			}
			for (const [id, where] of await change.find(elsewhere)) found.set(id, where);
			return found;
		},
		async accept(document, accepted, bound) {
			const time = Math.max(now, memory.lastTime);
			const made: Row[] = [];
			for (const entry of accepted) {
				const n = memory.lastRow + rows.length + 1;
				const row = number(document, entry, n, time, next(document, serverClientId));
				made.push(row);
				rows.push(row);
				remember(row, document.audience);
			}
			bindings.push(...bound);
			await change.bind(bound);
			await change.append(made);
			return made;
		},
		async part(work) {
			const [rowsBefore, bindingsBefore] = [rows.length, bindings.length];
			try {
				return await change.part(work);
			} catch (error) {
				const kept = rows.slice(0, rowsBefore);
				[rows, bindings, added, ids] = [[], bindings.slice(0, bindingsBefore), new Map(), new Map()];
				for (const row of kept) {
					rows.push(row);
					remember(row, memory.documents.get(row.document)?.audience ?? '');
				}
				throw error;
			}
		}
	};
}
