import { describe, expect, it } from 'vitest';
import * as Y from 'yjs';
import { documentKey, entriesRoot, stampsRoot } from '#protocol/document.ts';
import { limits, serverClientId } from '#protocol/limits.ts';
import { drawClientId, LedgerDocument, type LedgerAddition } from '#sync/ledgerDocument.ts';

const text = (id: string) => JSON.stringify({ id, by: 'ana', body: {} });

function additions(ledger: LedgerDocument): LedgerAddition[] {
	const heard: LedgerAddition[] = [];
	ledger.onAddition = (addition) => heard.push(addition);
	return heard;
}

describe('LedgerDocument', () => {
	it('sets each entry under the log and clock of its own struct, all of one call in one update', () => {
		const ledger = new LedgerDocument('d');
		let updates = 0;
		ledger.doc.on('update', () => updates++);
		ledger.add([text('a'), text('b')]);
		ledger.add([text('c')]);
		expect(updates).toBe(2);
		const keys = [...ledger.doc.getMap(entriesRoot).keys()];
		expect(keys).toEqual([0, 1, 2].map((clock) => documentKey(ledger.clientId, clock)));
		const { structs, ds } = Y.decodeUpdate(ledger.wholeUpdate());
		expect(ds.clients.size).toBe(0);
		expect(structs.map((struct) => (struct as Y.Item).origin)).toEqual([null, null, null]);
	});

	it('writes nothing under an id that Yjs drew by itself after meeting its own from elsewhere', () => {
		const ledger = new LedgerDocument('d');
		const other = new Y.Doc();
		other.clientID = ledger.clientId;
		other.getMap(entriesRoot).set(documentKey(ledger.clientId, 0), text('foreign'));
		Y.applyUpdate(ledger.doc, Y.encodeStateAsUpdate(other));
		expect(ledger.doc.clientID).toBeLessThan(limits.lowestClientId);
		ledger.add([text('a')]);
		const [position] = ledger.positions('a');
		expect(position!.client).toBeGreaterThanOrEqual(limits.lowestClientId);
		expect(position!.clock).toBe(0);
	});

	it('copies every log as it is but for the ends that are cut off', () => {
		const ledger = new LedgerDocument('d');
		const server = new Y.Doc();
		server.clientID = serverClientId;
		server.getMap(entriesRoot).set(documentKey(serverClientId, 0), text('club'));
		server
			.getMap(stampsRoot)
			.set(documentKey(serverClientId, 1), JSON.stringify({ id: 'club', n: 1, time: 5 }));
		Y.applyUpdate(ledger.doc, Y.encodeStateAsUpdate(server));
		ledger.add([text('a'), text('b')]);
		const spoilt = ledger.clientId;
		ledger.drawNewLog();
		ledger.add([text('c')]);

		const whole = ledger.copyWithout([]);
		expect(Y.encodeStateAsUpdate(whole.doc)).toEqual(ledger.wholeUpdate());
		expect(whole.clientId).not.toBe(ledger.clientId);

		const cut = ledger.copyWithout([{ client: spoilt, fromClock: 1 }]);
		expect(cut.clockOf(spoilt)).toBe(1);
		expect(['club', 'a', 'b', 'c'].map((id) => cut.has(id))).toEqual([true, true, false, true]);
		expect(cut.everything().stamps).toEqual([{ id: 'club', n: 1, time: 5 }]);
		// What was cut can come back from the server.
		Y.applyUpdate(cut.doc, ledger.wholeUpdate());
		expect(cut.has('b')).toBe(true);
	});

	it('tells each addition once, with its stamps, and what is no entry as text alone', () => {
		const ledger = new LedgerDocument('d');
		const heard = additions(ledger);
		ledger.add(['not json', text('a')]);
		Y.applyUpdate(ledger.doc, ledger.wholeUpdate());
		expect(heard).toHaveLength(1);
		expect(heard[0]!.items.map(({ entry }) => entry?.id ?? null)).toEqual([null, 'a']);
	});

	it('gives one log from a clock on, and nothing of the others', () => {
		const ledger = new LedgerDocument('d');
		ledger.add([text('a')]);
		const first = ledger.clientId;
		ledger.drawNewLog();
		ledger.add([text('b'), text('c'), text('e')]);
		const { structs } = Y.decodeUpdate(ledger.updateFrom(ledger.clientId, 1));
		expect(structs.map(({ id }) => [id.client, id.clock])).toEqual([
			[ledger.clientId, 1],
			[ledger.clientId, 2]
		]);
		expect(first).not.toBe(ledger.clientId);
	});

	it('draws client ids from the range that both ends agree on', () => {
		for (let draw = 0; draw < 1_000; draw++) {
			const client = drawClientId();
			expect(Number.isSafeInteger(client)).toBe(true);
			expect(client).toBeGreaterThanOrEqual(limits.lowestClientId);
		}
	});
});
