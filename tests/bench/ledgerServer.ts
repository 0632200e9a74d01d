/** The server's part of the ledger's figures; read by the bench's `ledger` command. Times are medians. */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import * as Y from 'yjs';
import { documentKey, entriesRoot } from '#protocol/document.ts';
import { createLedger } from '#server/ledger/ledger.ts';
import { guard, type GuardView, type Writer } from '#server/ledger/guard.ts';
import { createOpenDocument } from '#server/ledger/openDocument.ts';
import { readStructs } from '#server/ledger/readStructs.ts';
import { runsOf, structsOfRow, writeRuns } from '#server/ledger/writeStructs.ts';
import { openDatabase } from '#server/storage/database.ts';
import { createSqliteStorage } from '#server/storage/sqlite.ts';
import type { Row } from '#server/storage/storage.ts';

export interface ServerFigures {
	readonly entries: number;
	/** One more entry in an open document of so many logs. */
	readonly append: readonly {
		readonly logs: number;
		/** Server: guard, row in memory, update for the others. Without the commit. */
		readonly serverMs: number;
		/** Device: the update applied to its Yjs document. */
		readonly deviceMs: number;
	}[];
	/** Reading and judging one entry. */
	readonly guardMicroseconds: number;
	/** Encoded open document of `openEntries` entries. */
	readonly openEntries: number;
	readonly openDocumentBytes: number;
	/** All entries in volumes. */
	readonly volumes: number;
	readonly volumeBytes: number;
	readonly volumeLineBytes: number;
	/** Entries accepted and committed to a file, per second, in groups of 500. */
	readonly acceptedPerSecond: number;
	/** Loading a club whose open document has `openEntries` entries. */
	readonly loadMs: number;
}

const member = 'm-1f2e3d4c';
const device = 'd-5b6a7988';
const writer: Writer = { member, device, devices: new Set([device]) };
const nobodyKnows: GuardView = {
	owner: () => ({ member, device }),
	next: () => 0,
	textAt: () => '',
	isKnown: () => null
};

/** A count of a group, as long as a usual entry. */
function text(number: number): string {
	const time = (1_700_000_000_000 + number * 60_000).toString(16).padStart(12, '0');
	const rest = number.toString(16).padStart(12, '0');
	const id = `${time.slice(0, 8)}-${time.slice(8)}-7000-8000-${rest}`;
	const group = `0190a5b4-7c11-7000-8000-${(number % 400).toString(16).padStart(12, '0')}`;
	return JSON.stringify({
		id,
		kind: 'group/counted',
		version: 1,
		by: member,
		device,
		happened: '2026-03-14T19:20+00:00',
		about: [group],
		body: { group, males: number % 7, females: number % 11, unsexed: 0, how: 'counted' }
	});
}

function rows(entries: number, logs: number): Row[] {
	return Array.from({ length: entries }, (_, index) => {
		const entry = text(index);
		return {
			n: index + 1,
			document: 'open',
			id: (JSON.parse(entry) as { id: string }).id,
			client: 2 ** 40 + (index % logs) * 7_919,
			clock: Math.floor(index / logs),
			text: entry,
			member,
			device,
			broughtBy: null,
			time: 1_700_000_000_000 + index,
			stampClock: null
		};
	});
}

function median(repeats: number, measured: () => void): number {
	const times = Array.from({ length: repeats }, () => {
		const start = performance.now();
		measured();
		return performance.now() - start;
	});
	return times.sort((a, b) => a - b)[Math.floor(repeats / 2)]!;
}

function append(logs: number): ServerFigures['append'][number] {
	const document = createOpenDocument({ document: 'open', audience: 'club' });
	document.add(rows(4_000, logs), []);
	const doc = new Y.Doc({ gc: false });
	Y.applyUpdate(doc, document.updateAfter(new Map()));
	const updates: Uint8Array[] = [];
	let n = document.rows.length;
	const client = 2 ** 40;
	const serverMs = median(201, () => {
		const clock = document.logs.get(client)!.length;
		const [row] = rows(1, 1);
		const added: Row = { ...row!, n: (n += 1), id: `later-${n}`, client, clock, text: text(n) };
		document.add([added], []);
		updates.push(writeRuns(runsOf(structsOfRow(added))));
	});
	let next = 0;
	const deviceMs = median(201, () => Y.applyUpdate(doc, updates[next++]!));
	return { logs, serverMs, deviceMs };
}

function guardMicroseconds(): number {
	const doc = new Y.Doc();
	doc.clientID = 2 ** 40;
	doc.transact(() => {
		for (let clock = 0; clock < 200; clock += 1)
			doc.getMap(entriesRoot).set(documentKey(2 ** 40, clock), text(clock));
	});
	const update = Y.encodeStateAsUpdate(doc);
	const ms = median(101, () => {
		const structs = readStructs(update);
		if (typeof structs === 'string') throw new Error(structs);
		const verdicts = guard(structs, nobodyKnows, writer);
		if (verdicts.length !== 200 || typeof verdicts === 'string')
			throw new Error('the guard took less than all');
	});
	return (ms / 200) * 1_000;
}

async function onDisk(entries: number) {
	const folder = await mkdtemp(join(tmpdir(), 'kithline-bench-'));
	const database = openDatabase(join(folder, 'club.sqlite'));
	try {
		const storage = createSqliteStorage(database);
		const ledger = createLedger({ storage, clock: Date.now, needsStamp: () => false, log: () => {} });
		await ledger.createClub('bench');
		const officer = { member: 'officer', device: 'desk' };
		const start = performance.now();
		for (let from = 0; from < entries; from += 500) {
			const texts = Array.from({ length: Math.min(500, entries - from) }, (_, index) => text(from + index));
			await ledger.bring('bench', 'club', texts, officer);
		}
		const acceptedPerSecond = (entries / (performance.now() - start)) * 1_000;
		await ledger.closeVolume('bench', 'club');
		const volumes = (await ledger.manifest('bench', ['club'])).audiences[0]!.volumes;
		const openEntries = Math.min(entries, 3_500);
		const later = Array.from({ length: openEntries }, (_, index) => text(entries + index));
		for (let from = 0; from < openEntries; from += 500)
			await ledger.bring('bench', 'club', later.slice(from, from + 500), officer);
		await ledger.close();
		const again = createLedger({ storage, clock: Date.now, needsStamp: () => false, log: () => {} });
		const load = performance.now();
		await again.openRows('bench', 'club');
		const loadMs = performance.now() - load;
		await again.close();
		return { acceptedPerSecond, volumes, loadMs, openEntries };
	} finally {
		await database.close();
		await rm(folder, { recursive: true });
	}
}

/** @param entries in the club, for example 10,000 or 100,000 */
export async function ledgerServer(entries: number): Promise<ServerFigures> {
	const disk = await onDisk(entries);
	const open = createOpenDocument({ document: 'open', audience: 'club' });
	open.add(rows(disk.openEntries, 40), []);
	let volumeLineBytes = 0;
	for (let number = 0; number < entries; number += 1) {
		const line = { n: number + 1, id: '0'.repeat(36), client: 1, clock: number, text: text(number) };
		volumeLineBytes += Buffer.byteLength(JSON.stringify(line)) + 1;
	}
	return {
		entries,
		append: [10, 800, 1_000].map(append),
		guardMicroseconds: guardMicroseconds(),
		openEntries: disk.openEntries,
		openDocumentBytes: open.updateAfter(new Map()).byteLength,
		volumes: disk.volumes.length,
		volumeBytes: disk.volumes.reduce((sum, { bytes }) => sum + bytes, 0),
		volumeLineBytes,
		acceptedPerSecond: disk.acceptedPerSecond,
		loadMs: disk.loadMs
	};
}
