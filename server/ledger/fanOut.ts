/**
 * Sends committed rows on to the devices of one document, merged into one frame for each device: at once when it is
 * quiet, within a short window when many write to many. A frame to a device costs more than all checks of an entry.
 */
import { structsOfRow, runsOf, writeRuns } from './writeStructs.ts';
import type { Row } from '#server/storage/storage.ts';

/** A device as the fan-out sees it. */
export interface Listener {
	/** Whether it has had the document's state, so that nothing is sent that it could not place. */
	readonly isListening: boolean;
	sendUpdate(update: Uint8Array): void;
}

export interface FanOut {
	readonly listeners: Set<Listener>;
	/** @param from whoever wrote the row: it is not sent its own entry again, only its stamp */
	publish(rows: readonly Row[], from: (row: Row) => Listener | null): void;
	/** Sends what waits, now. */
	flush(): void;
}

const quietMs = 50;
const maxWindowMs = 50;
/** At about this number of devices a window pays for itself by each further millisecond. */
const devicesPerMs = 10;

export function createFanOut(clock: () => number): FanOut {
	const listeners = new Set<Listener>();
	let waiting: { row: Row; from: Listener | null }[] = [];
	let timer: NodeJS.Timeout | null = null;
	let lastSent = 0;

	function flush(): void {
		if (timer) clearTimeout(timer);
		timer = null;
		const sending = waiting;
		waiting = [];
		if (sending.length === 0) return;
		lastSent = clock();
		const forAll = writeRuns(runsOf(sending.flatMap(({ row }) => structsOfRow(row))));
		const writers = new Set(sending.map(({ from }) => from));
		for (const listener of listeners) {
			if (!listener.isListening) continue;
			if (!writers.has(listener)) {
				listener.sendUpdate(forAll);
				continue;
			}
			const structs = sending.flatMap(({ row, from }) =>
				from === listener ? structsOfRow(row).slice(1) : structsOfRow(row)
			);
			if (structs.length > 0) listener.sendUpdate(writeRuns(runsOf(structs)));
		}
	}

	return {
		listeners,
		publish(rows, from) {
			for (const row of rows) waiting.push({ row, from: from(row) });
			const isQuiet = clock() - lastSent > quietMs;
			const windowMs = isQuiet ? 0 : Math.min(maxWindowMs, Math.floor(listeners.size / devicesPerMs));
			timer ??= setTimeout(flush, windowMs);
		},
		flush
	};
}
