/**
 * Reads the one shape of Yjs update that a ledger document is made of, and nothing else: every struct sets a key of a
 * root map to one string, without origin; nothing is deleted. Written against the update format of Yjs 13
 * (UpdateEncoderV1, Item.write). Reading stops at the first byte that does not fit, so that no exotic content is ever
 * built from bytes of strangers.
 */
import * as decoding from 'lib0/decoding';

export interface Struct {
	readonly client: number;
	readonly clock: number;
	readonly root: string;
	readonly key: string;
	readonly text: string;
}

/** What is wrong with an update that an honest device cannot have sent. Written to the log. */
export type BrokenRule =
	'not-an-update' | 'deletes' | 'overwrites' | 'other-shape' | 'other-root' | 'other-key' | 'unsafe-number';

/** Item with a key, no origin, ContentAny: bit 6 and content 8, as `ymap.set(key, string)` writes. */
export const setsKey = 0b0010_1000;
export const skips = 10;
const originBits = 0b1100_0000;
export const parentIsRoot = 1;
/** lib0's mark of a string in ContentAny. */
export const stringMark = 119;

class Broken extends Error {
	readonly rule: BrokenRule;
	constructor(rule: BrokenRule) {
		super(rule);
		this.rule = rule;
	}
}

function readStruct(decoder: decoding.Decoder, client: number, clock: number): Struct {
	const info = decoding.readUint8(decoder);
	if (info === undefined) throw new Broken('not-an-update');
	if (info & originBits) throw new Broken('overwrites');
	if (info !== setsKey) throw new Broken('other-shape');
	if (decoding.readVarUint(decoder) !== parentIsRoot) throw new Broken('other-shape');
	const root = decoding.readVarString(decoder);
	const key = decoding.readVarString(decoder);
	if (decoding.readVarUint(decoder) !== 1) throw new Broken('other-shape');
	if (decoding.readUint8(decoder) !== stringMark) throw new Broken('other-shape');
	return { client, clock, root, key, text: decoding.readVarString(decoder) };
}

function read(decoder: decoding.Decoder): Struct[] {
	const structs: Struct[] = [];
	const logs = decoding.readVarUint(decoder);
	for (let log = 0; log < logs; log += 1) {
		const count = decoding.readVarUint(decoder);
		const client = decoding.readVarUint(decoder);
		let clock = decoding.readVarUint(decoder);
		for (let read = 0; read < count; read += 1) {
			// A skip stands where the sender itself lacks something; what follows is after a gap.
			if (decoding.peekUint8(decoder) === skips) {
				decoding.readUint8(decoder);
				clock += decoding.readVarUint(decoder);
			} else {
				structs.push(readStruct(decoder, client, clock));
				clock += 1;
			}
			if (!Number.isSafeInteger(clock)) throw new Broken('unsafe-number');
		}
	}
	if (decoding.readVarUint(decoder) !== 0) throw new Broken('deletes');
	if (decoding.hasContent(decoder)) throw new Broken('not-an-update');
	return structs;
}

/** @returns the structs in the order of the update, or the first rule that it breaks */
export function readStructs(update: Uint8Array): readonly Struct[] | BrokenRule {
	try {
		return read(decoding.createDecoder(update));
	} catch (error) {
		if (error instanceof Broken) return error.rule;
		const message = error instanceof Error ? error.message : '';
		return message.includes('out of Range') ? 'unsafe-number' : 'not-an-update';
	}
}
