import { describe, expect, test } from 'vitest';
import * as Y from 'yjs';
import { documentKey, entriesRoot, stampsRoot } from '#protocol/document.ts';
import { guard, type GuardView, type Writer } from '#server/ledger/guard.ts';
import { readStructs, type Struct } from '#server/ledger/readStructs.ts';
import { runsOf, structsOfRow, writeRuns } from '#server/ledger/writeStructs.ts';
import { sortTogether, type Take } from '#server/ledger/together.ts';
import { readEnvelope } from '#server/ledger/readEnvelope.ts';
import { row } from '#tests/contract/storage.ts';
import { closingAttacks } from './attacks.ts';
import { entryId, entryText } from './entries.ts';

const own = 2 ** 40 + 1;
const others = 2 ** 41 + 1;
const free = 2 ** 42 + 1;

const ann: Writer = { member: 'ann', device: 'ann-phone', devices: new Set(['ann-phone', 'ann-old']) };
const bobsEntry = (number: number) => entryText(number, { by: 'bob', device: 'bob-phone' });

/** The server has entries 1 and 2 in Ann's log, 3 in Bob's, a stamp in its own; 4 stands elsewhere in the club. */
const logs = new Map<number, string[]>([
	[own, [entryText(1), entryText(2)]],
	[others, [bobsEntry(3)]],
	[1, ['{"id":"x","n":1,"time":1}']]
]);
const view: GuardView = {
	owner: (client) =>
		client === own
			? { member: 'ann', device: 'ann-phone' }
			: client === others
				? { member: 'bob', device: 'bob-phone' }
				: null,
	next: (client) => logs.get(client)?.length ?? 0,
	textAt: (client, clock) => logs.get(client)?.[clock] ?? '',
	isKnown(id, text) {
		const texts = new Map(
			[entryText(1), entryText(2), entryText(4)].map((known) => [readEnvelope(known)!.id, known])
		);
		if (id === entryId(5)) return 'erased';
		if (!texts.has(id)) return null;
		return texts.get(id) === text ? 'same' : 'other-text';
	}
};

const struct = (client: number, clock: number, text: string, root: string = entriesRoot): Struct => ({
	client,
	clock,
	root,
	key: documentKey(client, clock),
	text
});

const judged = (...structs: Struct[]) => {
	const verdicts = guard(structs, view, ann);
	if (typeof verdicts === 'string') return verdicts;
	return verdicts.map((verdict) =>
		verdict.verdict === 'take'
			? `take ${verdict.struct.client === own ? 'own' : 'free'} ${verdict.struct.clock}${verdict.binds ? ' and bind' : ''}`
			: verdict.verdict === 'refused'
				? `refused ${verdict.reason}`
				: verdict.verdict === 'gap'
					? `gap: from ${verdict.clock}, got ${verdict.first}`
					: verdict.verdict
	);
};

describe('the guard’s table', () => {
	test.each<[string, Struct[], string[] | string]>([
		['an own struct that the server has, same text', [struct(own, 0, entryText(1))], ['have']],
		['an own struct that the server has, other text', [struct(own, 0, entryText(9))], ['log-damaged']],
		['an own struct after a gap', [struct(own, 3, entryText(9))], ['gap: from 2, got 3']],
		['a foreign struct that the server has', [struct(others, 0, bobsEntry(3))], ['ignore']],
		[
			'a foreign struct that the server has with other text',
			[struct(others, 0, bobsEntry(9))],
			['fetch-anew']
		],
		['a foreign struct that the server lacks', [struct(others, 1, bobsEntry(9))], ['fetch-anew']],
		['a lost log of another member', [struct(free, 0, bobsEntry(9))], ['fetch-anew']],
		['a stamp that the server has', [struct(1, 0, logs.get(1)![0]!, stampsRoot)], ['ignore']],
		['a stamp that the server lacks', [struct(1, 1, '{}', stampsRoot)], ['fetch-anew']],
		['the next of an own log', [struct(own, 2, entryText(9))], ['take own 2']],
		['the first of a free log', [struct(free, 0, entryText(9))], ['take free 0 and bind']],
		[
			'two of a free log',
			[struct(free, 0, entryText(8)), struct(free, 1, entryText(9))],
			['take free 0 and bind', 'take free 1']
		],
		['an entry of an earlier device', [struct(own, 2, entryText(9, { device: 'ann-old' }))], ['take own 2']],
		['an entry known, same text, in another log', [struct(free, 0, entryText(1))], ['take free 0 and bind']],
		[
			'an entry known with another text',
			[struct(own, 2, entryText(4, { body: 'x' }))],
			['refused other-text']
		],
		['an erased entry', [struct(own, 2, entryText(5))], ['refused erased']],
		[
			'one id twice with two texts',
			[struct(own, 2, entryText(9)), struct(own, 3, entryText(9, { body: 1 }))],
			['take own 2', 'refused other-text']
		],
		[
			'a text too large in bytes, not in units',
			[struct(own, 2, entryText(9, { body: '€'.repeat(6_000) }))],
			['refused too-large']
		],
		['an entry of another member', [struct(own, 2, bobsEntry(9))], ['refused not-yours']],
		[
			'an entry of another’s device',
			[struct(own, 2, entryText(9, { device: 'bob-phone' }))],
			['refused not-yours']
		],
		['no JSON', [struct(own, 2, 'hello')], ['refused not-an-entry']],
		[
			'an id that is no UUID version 7',
			[struct(own, 2, entryText(9, { id: '__proto__' }))],
			['refused not-an-entry']
		],
		[
			'what follows a refused one',
			[struct(own, 2, 'x'), struct(own, 3, entryText(9))],
			['refused not-an-entry']
		],
		['a 32-bit client id', [struct(77, 0, entryText(9))], ['log-damaged']],
		['another root', [struct(own, 2, entryText(9), 'others')], 'other-root'],
		['stamps in an own log', [struct(own, 2, entryText(9), stampsRoot)], 'other-root'],
		['another key', [{ ...struct(own, 2, entryText(9)), key: documentKey(own, 3) }], 'other-key'],
		[
			'one broken struct among good ones',
			[struct(own, 2, entryText(9)), struct(own, 3, '', 'x')],
			'other-root'
		]
	])('%s', (_, structs, expected) => {
		expect(judged(...structs)).toEqual(expected);
	});

	test('one damaged log does not hold up another', () => {
		expect(
			judged(struct(own, 0, entryText(9)), struct(own, 2, entryText(8)), struct(free, 0, entryText(7)))
		).toEqual(['log-damaged', 'take free 0 and bind']);
	});

	test.each(closingAttacks)('reads nothing of: $name', ({ update }) => {
		const doc = new Y.Doc();
		doc.clientID = others;
		doc.getMap(entriesRoot).set(documentKey(others, 0), bobsEntry(3));
		const structs = readStructs(update(own, others, doc));
		const isBroken = typeof structs === 'string' || typeof guard(structs, view, ann) === 'string';
		expect(isBroken).toBe(true);
	});
});

describe('rows -> update', () => {
	test('gives the bytes that a device’s own Y.Map.set makes', () => {
		const doc = new Y.Doc();
		const texts = [entryText(1), 'naïve 🐟', '', '\uFEFF', 'x'.repeat(20_000)];
		doc.clientID = own;
		texts.forEach((text, clock) => doc.getMap(entriesRoot).set(documentKey(own, clock), text));
		doc.clientID = free;
		doc.getMap(entriesRoot).set(documentKey(free, 0), entryText(9));
		const rows = [
			...texts.map((text, clock) => row({ n: clock + 1, client: own, clock, text })),
			row({ n: 6, client: free, clock: 0, text: entryText(9) })
		];
		const update = writeRuns(runsOf(rows.flatMap(structsOfRow)));
		expect(update).toEqual(Y.encodeStateAsUpdate(doc));
		expect(readStructs(update)).toHaveLength(6);
	});

	test('a stamped row is two structs, the stamp in the server’s log', () => {
		const doc = new Y.Doc();
		const stamped = row({ n: 7, id: 'some-id', client: own, clock: 0, stampClock: 0, time: 99 });
		Y.applyUpdate(doc, writeRuns(runsOf(structsOfRow(stamped))));
		expect(doc.getMap(stampsRoot).toJSON()).toEqual({ '1.0': '{"id":"some-id","n":7,"time":99}' });
		expect(doc.getMap(entriesRoot).toJSON()).toEqual({ [documentKey(own, 0)]: stamped.text });
	});
});

describe('writings that belong together', () => {
	const take = (clock: number, together: readonly number[], client = own): Take => {
		const text = entryText(clock, { together: together.map((number) => entryId(number)) });
		return { verdict: 'take', struct: struct(client, clock, text), entry: readEnvelope(text)!, binds: false };
	};
	const clocks = (takes: readonly Take[]) => takes.map(({ struct }) => struct.clock);
	const sorted = (...takes: Take[]) => {
		const { complete, waiting, broken } = sortTogether(takes, (id) => id === entryId(100));
		return { complete: clocks(complete), waiting: clocks(waiting), broken: clocks(broken) };
	};

	test('whole writings are complete, also with an entry that the club has', () => {
		expect(sorted(take(0, []), take(1, [1, 2]), take(2, [1, 2]), take(3, [3, 100]))).toEqual({
			complete: [0, 1, 2, 3],
			waiting: [],
			broken: []
		});
	});

	test('a part waits, and so does what follows in its log, and no other log', () => {
		expect(sorted(take(0, []), take(1, [1, 9]), take(2, []), take(5, [], free))).toEqual({
			complete: [0, 5],
			waiting: [1, 2],
			broken: [1]
		});
	});

	test('a writing whose other part waits in another log waits with it', () => {
		const { complete, broken } = sorted(take(1, [1, 6]), take(5, [5, 9], free), take(6, [1, 6], free));
		expect([complete, broken]).toEqual([[], [5, 1]]);
	});

	test('more entries than a writing may have are broken', () => {
		const many = Array.from({ length: 65 }, (_, number) => number);
		expect(sorted(...many.map((number) => take(number, many))).complete).toEqual([]);
	});
});
