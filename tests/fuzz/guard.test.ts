import { describe, expect, test } from 'vitest';
import * as Y from 'yjs';
import { documentKey, entriesRoot, stampsRoot } from '#protocol/document.ts';
import { createOpenDocument, type OpenDocument } from '#server/ledger/openDocument.ts';
import { guard, type GuardView, type Writer } from '#server/ledger/guard.ts';
import { readStructs } from '#server/ledger/readStructs.ts';
import type { Row } from '#server/storage/storage.ts';
import { row } from '#tests/contract/storage.ts';
import { randomFrom } from '#genetics/drop/randomFrom.ts';
import { closingAttacks, handMade } from '#tests/server/ledger/attacks.ts';
import { entryId, entryText } from '#tests/server/ledger/entries.ts';

const annsLog = 2 ** 40 + 1;
const evesLog = 2 ** 41 + 1;
const eve: Writer = { member: 'eve', device: 'eve-phone', devices: new Set(['eve-phone']) };
const eves = { by: 'eve', device: 'eve-phone' };

/** Ann has 20 entries, some stamped; Eve 5. */
function beginning(): { document: OpenDocument; rows: Row[] } {
	const document = createOpenDocument({ document: 'document-1', audience: 'club' });
	const rows: Row[] = [];
	let stampClock = 0;
	for (let number = 0; number < 25; number += 1) {
		const isAnn = number < 20;
		rows.push(
			row({
				n: number + 1,
				id: entryId(number),
				client: isAnn ? annsLog : evesLog,
				clock: isAnn ? number : number - 20,
				text: entryText(number, isAnn ? {} : eves),
				stampClock: number % 4 === 0 ? stampClock++ : null
			})
		);
	}
	const bound = { document: 'document-1', device: '', member: '' };
	document.add(rows, [
		{ ...bound, client: annsLog, member: 'ann', device: 'ann-phone' },
		{ ...bound, client: evesLog, member: 'eve', device: 'eve-phone' }
	]);
	return { document, rows };
}

function viewOf(document: OpenDocument): GuardView {
	return {
		owner: (client) => document.bindings.get(client) ?? null,
		next: (client) => document.logs.get(client)?.length ?? 0,
		textAt: (client, clock) => document.logs.get(client)?.[clock]?.text ?? '',
		isKnown(id, text) {
			const known = document.entries.get(id);
			return known ? (known.text === text ? 'same' : 'other-text') : null;
		}
	};
}

/** An update as Eve's app might send it, before it is spoilt. */
function plausible(random: () => number, document: OpenDocument): Uint8Array {
	const doc = new Y.Doc();
	Y.applyUpdate(doc, document.updateAfter(new Map()));
	const pick = Math.floor(random() * 4);
	if (pick === 0)
		return closingAttacks[Math.floor(random() * closingAttacks.length)]!.update(evesLog, annsLog, doc);
	if (pick === 1) return Y.encodeStateAsUpdate(doc);
	if (pick === 2)
		return handMade({
			client: [annsLog, evesLog, 1, 2 ** 45, 77, 0][Math.floor(random() * 6)]!,
			clock: Math.floor(random() * 30),
			root: random() < 0.8 ? entriesRoot : ['', stampsRoot, '__proto__'][Math.floor(random() * 3)]!,
			text: entryText(Math.floor(random() * 60), random() < 0.7 ? eves : {})
		});
	const before = Y.encodeStateVector(doc);
	doc.clientID = random() < 0.8 ? evesLog : 2 ** 44 + Math.floor(random() * 1e6);
	doc.transact(() => {
		for (let number = Math.floor(random() * 4); number >= 0; number -= 1) {
			const clock = Y.getState(doc.store, doc.clientID);
			const text = entryText(Math.floor(random() * 200), eves);
			doc.getMap(entriesRoot).set(documentKey(doc.clientID, clock), text);
		}
	});
	return Y.encodeStateAsUpdate(doc, before);
}

function spoil(update: Uint8Array, random: () => number): Uint8Array {
	const at = () => Math.floor(random() * update.length);
	const copy = Uint8Array.from(update);
	switch (Math.floor(random() * 7)) {
		case 0:
			for (let flips = Math.floor(random() * 8); flips >= 0 && copy.length > 0; flips -= 1)
				copy[at()]! ^= 1 << Math.floor(random() * 8);
			return copy;
		case 1:
			return copy.slice(0, at());
		case 2:
			return copy.slice(at());
		case 3:
			return new Uint8Array([...copy, ...copy.slice(at())]);
		case 4: {
			const start = at();
			return new Uint8Array([...copy.slice(0, start), ...copy.slice(start + Math.floor(random() * 5))]);
		}
		case 5:
			return Uint8Array.from({ length: Math.floor(random() * 300) }, () => Math.floor(random() * 256));
		default:
			return copy;
	}
}

describe('the guard under random and spoilt updates', { timeout: 60_000 }, () => {
	test.each([1, 2, 3, 4, 5, 6])('seed %i: nothing but clean additions to own logs gets in', (seed) => {
		const random = randomFrom(seed);
		let taken = 0;
		let refused = 0;
		for (let round = 0; round < 1_500; round += 1) {
			const { document, rows } = beginning();
			const structs = readStructs(spoil(plausible(random, document), random));
			const verdicts = typeof structs === 'string' ? structs : guard(structs, viewOf(document), eve);
			if (typeof verdicts === 'string') {
				refused += 1;
				continue;
			}
			let n = rows.length;
			const added: Row[] = [];
			for (const verdict of verdicts) {
				if (verdict.verdict !== 'take') continue;
				const { client, clock, key, root, text } = verdict.struct;
				taken += 1;
				expect([root, key]).toEqual([entriesRoot, documentKey(client, clock)]);
				expect([annsLog, 1]).not.toContain(client);
				expect(client).toBeGreaterThanOrEqual(2 ** 32);
				expect(JSON.parse(text)).toMatchObject(eves);
				added.push(row({ n: (n += 1), id: verdict.entry.id, client, clock, text }));
			}
			const before = new Y.Doc();
			Y.applyUpdate(before, document.updateAfter(new Map()));
			// Throws unless each continues its log without a gap.
			document.add(added, []);
			const after = new Y.Doc();
			Y.applyUpdate(after, document.updateAfter(new Map()));
			expect(after.store.pendingStructs).toBeNull();
			expect(Y.decodeUpdate(Y.encodeStateAsUpdate(after)).ds.clients.size).toBe(0);
			expect([...after.share.keys()].sort()).toEqual([entriesRoot, stampsRoot]);
			expect(after.getMap(entriesRoot).toJSON()).toMatchObject(before.getMap(entriesRoot).toJSON());
			expect(after.getMap(stampsRoot).toJSON()).toEqual(before.getMap(stampsRoot).toJSON());
		}
		// The run must have met both sides, or it would show nothing.
		expect(taken).toBeGreaterThan(50);
		expect(refused).toBeGreaterThan(50);
	});
});
