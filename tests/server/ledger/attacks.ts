/** Updates that no honest device sends, by name (and what the server must make of each). */
import * as encoding from 'lib0/encoding';
import * as Y from 'yjs';
import { documentKey, entriesRoot } from '#protocol/document.ts';
import { entryText } from './entries.ts';

export interface Attack {
	readonly name: string;
	/** An update for someone whose own log is `own`; `victim` holds one entry at clock 0 in a document `doc`. */
	update(own: number, victim: number, doc: Y.Doc): Uint8Array;
}

function written(client: number, write: (doc: Y.Doc) => void, from?: Y.Doc): Uint8Array {
	const doc = new Y.Doc();
	if (from) Y.applyUpdate(doc, Y.encodeStateAsUpdate(from));
	const before = Y.encodeStateVector(doc);
	doc.clientID = client;
	doc.transact(() => write(doc));
	return Y.encodeStateAsUpdate(doc, before);
}

/** One struct with the given parts, encoded by hand. */
export function handMade(parts: {
	client: number;
	clock?: number;
	info?: number;
	root?: string;
	key?: string;
	text?: string;
	deletes?: boolean;
}): Uint8Array {
	const {
		client,
		clock = 0,
		info = 0b0010_1000,
		root = entriesRoot,
		text = entryText(50),
		deletes = false
	} = parts;
	const encoder = encoding.createEncoder();
	for (const number of [1, 1, client, clock]) encoding.writeVarUint(encoder, number);
	encoding.writeUint8(encoder, info);
	encoding.writeVarUint(encoder, 1);
	encoding.writeVarString(encoder, root);
	encoding.writeVarString(encoder, parts.key ?? documentKey(client, clock));
	encoding.writeVarUint(encoder, 1);
	encoding.writeUint8(encoder, 119);
	encoding.writeVarString(encoder, text);
	if (deletes) for (const number of [1, client, 1, 0, 1]) encoding.writeVarUint(encoder, number);
	else encoding.writeVarUint(encoder, 0);
	return encoding.toUint8Array(encoder);
}

/** Each closes the attacker's connection with the final code for broken rules. */
export const closingAttacks: readonly Attack[] = [
	{
		name: 'deleting an entry',
		update: (own, victim, doc) =>
			written(own, (copy) => copy.getMap(entriesRoot).delete(documentKey(victim, 0)), doc)
	},
	{
		name: 'overwriting an entry',
		update: (own, victim, doc) =>
			written(own, (copy) => copy.getMap(entriesRoot).set(documentKey(victim, 0), entryText(50)), doc)
	},
	{
		name: 'setting another’s next key before it does',
		update: (own, victim) => handMade({ client: own, key: documentKey(victim, 1) })
	},
	{ name: 'a delete set alone', update: (own, victim) => deleteSet(victim) },
	{
		name: 'nested types',
		update: (own) => written(own, (doc) => doc.getMap(entriesRoot).set(documentKey(own, 0), new Y.Map()))
	},
	{
		name: 'a number instead of a text',
		update: (own) => written(own, (doc) => doc.getMap(entriesRoot).set(documentKey(own, 0), 5))
	},
	{
		name: 'bytes instead of a text',
		update: (own) =>
			written(own, (doc) => doc.getMap(entriesRoot).set(documentKey(own, 0), new Uint8Array(9)))
	},
	{
		name: 'a subdocument',
		update: (own) => written(own, (doc) => doc.getMap(entriesRoot).set(documentKey(own, 0), new Y.Doc()))
	},
	{
		name: 'an array at the root',
		update: (own) => written(own, (doc) => doc.getArray(entriesRoot).push(['x']))
	},
	{ name: 'a text at the root', update: (own) => written(own, (doc) => doc.getText('words').insert(0, 'x')) },
	{
		name: 'another root',
		update: (own) => written(own, (doc) => doc.getMap('others').set(documentKey(own, 0), entryText(50)))
	},
	{ name: 'writing stamps', update: (own) => handMade({ client: own, root: 'stamps' }) },
	{ name: 'a key of no log', update: (own) => handMade({ client: own, key: '__proto__' }) },
	{ name: 'an entry and a delete set', update: (own) => handMade({ client: own, deletes: true }) },
	{ name: 'a left origin', update: (own) => handMade({ client: own, info: 0b1010_1000 }) },
	{ name: 'a collected struct', update: (own) => handMade({ client: own, info: 0 }) },
	{
		name: 'a clock that is not safe',
		update: (own) => handMade({ client: own, clock: Number.MAX_SAFE_INTEGER })
	},
	{ name: 'a truncated update', update: (own) => handMade({ client: own }).slice(0, -20) },
	{ name: 'bytes after the end', update: (own) => new Uint8Array([...handMade({ client: own }), 7]) },
	{
		name: 'a promise of many structs',
		update: () => new Uint8Array([255, 255, 255, 127, 255, 255, 255, 127])
	},
	{
		name: 'a client id above the safe numbers',
		update: () => new Uint8Array([1, 1, ...Array(9).fill(255), 1, 0])
	},
	{ name: 'malformed UTF-8', update: (own) => malformed(own) }
];

function malformed(client: number): Uint8Array {
	const update = handMade({ client, text: entryText(50, { body: 'QQQQ' }) });
	const at = update.findLastIndex((byte) => byte === 'Q'.charCodeAt(0));
	update[at] = 0xff;
	return update;
}

function deleteSet(client: number): Uint8Array {
	const encoder = encoding.createEncoder();
	for (const number of [0, 1, client, 1, 0, 1]) encoding.writeVarUint(encoder, number);
	return encoding.toUint8Array(encoder);
}
