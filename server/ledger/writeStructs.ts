/**
 * Rows -> update: the only maker of bytes that the server sends. It writes each struct as the device's own
 * `ymap.set(key, text)` did (same log, clock, root, key, content), so that all devices hold equal documents.
 * Written against the update format of Yjs 13.
 */
import * as encoding from 'lib0/encoding';
import { documentKey, entriesRoot, stampsRoot } from '#protocol/document.ts';
import { serverClientId } from '#protocol/limits.ts';
import type { Row } from '#server/storage/storage.ts';
import { parentIsRoot, setsKey, stringMark } from './readStructs.ts';

/** What stands at one place of a log. */
export interface LogStruct {
	readonly root: typeof entriesRoot | typeof stampsRoot;
	readonly text: string;
	readonly row: Row;
}
export interface PlacedStruct extends LogStruct {
	readonly client: number;
	readonly clock: number;
}

/** One row is one struct, or two with its stamp. */
export function structsOfRow(row: Row): PlacedStruct[] {
	const { client, clock, text, id, n, time, stampClock } = row;
	const entry: PlacedStruct = { client, clock, root: entriesRoot, text, row };
	if (stampClock === null) return [entry];
	const stamp = JSON.stringify({ id, n, time });
	return [entry, { client: serverClientId, clock: stampClock, root: stampsRoot, text: stamp, row }];
}

/** A run of one log: its structs from clock `from` on, without gap. */
export interface Run {
	readonly client: number;
	readonly from: number;
	readonly structs: readonly LogStruct[];
}

/** @param runs one for each log, in any order */
export function writeRuns(runs: readonly Run[]): Uint8Array {
	const encoder = encoding.createEncoder();
	const filled = runs.filter(({ structs }) => structs.length > 0);
	// Yjs writes higher client ids first.
	filled.sort((a, b) => b.client - a.client);
	encoding.writeVarUint(encoder, filled.length);
	for (const { client, from, structs } of filled) {
		encoding.writeVarUint(encoder, structs.length);
		encoding.writeVarUint(encoder, client);
		encoding.writeVarUint(encoder, from);
		structs.forEach(({ root, text }, index) => {
			encoding.writeUint8(encoder, setsKey);
			encoding.writeVarUint(encoder, parentIsRoot);
			encoding.writeVarString(encoder, root);
			encoding.writeVarString(encoder, documentKey(client, from + index));
			encoding.writeVarUint(encoder, 1);
			encoding.writeUint8(encoder, stringMark);
			encoding.writeVarString(encoder, text);
		});
	}
	// An empty delete set.
	encoding.writeVarUint(encoder, 0);
	return encoding.toUint8Array(encoder);
}

/** Gathers structs (each log's in order and without gap) into runs. */
export function runsOf(placed: readonly PlacedStruct[]): Run[] {
	const runs = new Map<number, { client: number; from: number; structs: LogStruct[] }>();
	for (const struct of [...placed].sort((a, b) => a.clock - b.clock)) {
		const run = runs.get(struct.client);
		if (run) run.structs.push(struct);
		else runs.set(struct.client, { client: struct.client, from: struct.clock, structs: [struct] });
	}
	return [...runs.values()];
}
