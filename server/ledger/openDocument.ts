/**
 * An open document in memory: its logs, exactly as the committed rows give them. There is no Y.Doc on the server:
 * the logs alone answer what Yjs asks (a state vector, what lies after one), and adding costs the same however many
 * logs there are.
 */
import * as encoding from 'lib0/encoding';
import type { Binding, DocumentRecord, Row } from '#server/storage/storage.ts';
import { structsOfRow, writeRuns, type LogStruct } from './writeStructs.ts';

export interface OpenDocument {
	readonly name: string;
	readonly audience: string;
	/** client id -> structs, the index is the clock. */
	readonly logs: ReadonlyMap<number, readonly LogStruct[]>;
	readonly bindings: ReadonlyMap<number, Binding>;
	/** The first row of each entry. */
	readonly entries: ReadonlyMap<string, Row>;
	readonly rows: readonly Row[];
	/** Adds committed rows and bindings. */
	add(rows: readonly Row[], bindings: readonly Binding[]): void;
	/** As `Y.encodeStateVector` of a document with these logs. */
	stateVector(): Uint8Array;
	/** What lies after a state vector, as an update. */
	updateAfter(known: ReadonlyMap<number, number>): Uint8Array;
}

export function createOpenDocument({ document, audience }: DocumentRecord): OpenDocument {
	const logs = new Map<number, LogStruct[]>();
	const bindings = new Map<number, Binding>();
	const entries = new Map<string, Row>();
	const rows: Row[] = [];

	function place(row: Row): void {
		for (const { client, clock, root, text } of structsOfRow(row)) {
			let log = logs.get(client);
			if (!log) logs.set(client, (log = []));
			if (clock !== log.length)
				throw new RangeError(`row ${row.n} requires clock ${log.length} of log ${client}, got ${clock}`);
			log.push({ root, text, row });
		}
		rows.push(row);
		if (!entries.has(row.id)) entries.set(row.id, row);
	}

	return {
		name: document,
		audience,
		logs,
		bindings,
		entries,
		rows,
		add(added, bound) {
			for (const binding of bound) bindings.set(binding.client, binding);
			for (const row of added) place(row);
		},
		stateVector() {
			const encoder = encoding.createEncoder();
			encoding.writeVarUint(encoder, logs.size);
			for (const [client, log] of logs) {
				encoding.writeVarUint(encoder, client);
				encoding.writeVarUint(encoder, log.length);
			}
			return encoding.toUint8Array(encoder);
		},
		updateAfter(known) {
			const runs = [];
			for (const [client, log] of logs) {
				const from = known.get(client) ?? 0;
				if (from < log.length) runs.push({ client, from, structs: log.slice(from) });
			}
			return writeRuns(runs);
		}
	};
}
