/** The ledger's figures: folding, one entry more, sizes, the server's part, a new device. */
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { ledgerAims } from './ledgerAims.ts';
import type { BrowserFigures } from './ledgerBrowser.ts';
import { buildIfOlder, ledgerDevice, type DeviceFigures } from './ledgerDevice.ts';
import type { FoldFigures, Times } from './ledgerFold.ts';
import { ledgerServer, type ServerFigures } from './ledgerServer.ts';
import type { Aim, Bench } from './main.ts';

const sizes = [10_000, 100_000];

export interface LedgerFigures {
	readonly fold: readonly FoldFigures[];
	readonly server: readonly ServerFigures[];
	readonly device: readonly DeviceFigures[];
}

function foldOf(entries: number): FoldFigures {
	const file = join(import.meta.dirname, 'ledgerFold.ts');
	const made = spawnSync(process.execPath, ['--expose-gc', file, String(entries)], { encoding: 'utf8' });
	if (made.status !== 0) throw new Error(`the fold could not be measured:\n${made.stderr}`);
	return JSON.parse(made.stdout) as FoldFigures;
}

async function run(tell: (step: string) => void): Promise<LedgerFigures> {
	const fold: FoldFigures[] = [];
	const server: ServerFigures[] = [];
	const device: DeviceFigures[] = [];
	for (const entries of sizes) {
		tell(`${entries} entries: folding`);
		fold.push(foldOf(entries));
		tell(`${entries} entries: the server's part`);
		server.push(await ledgerServer(entries));
	}
	tell('building the app, if its build is older than its sources');
	buildIfOlder();
	for (const entries of sizes) device.push(await ledgerDevice(entries, tell));
	return { fold, server, device };
}

function lines(given: object): string[] {
	const { fold, server, device } = given as LedgerFigures;
	return [...fold.flatMap(foldLines), ...server.flatMap(serverLines), ...device.flatMap(deviceLines)];
}

const aims = (given: object): Aim[] => ledgerAims(given as LedgerFigures);

const ms = (value: number) => `${value < 10 ? value.toFixed(3) : value.toFixed(0)} ms`;
const mb = (bytes: number) => `${(bytes / 1e6).toFixed(1)} MB`;
const both = ({ median, slowest }: Times) => `${ms(median)} (slowest ${ms(slowest)})`;

function foldLines(of: FoldFigures): string[] {
	return [
		`${of.entries} entries, ${mb(of.textBytes)} of JSON, ${of.things} things`,
		`  folded in ${ms(of.foldMs)}, the quickest of ${of.folds}; the first ${ms(of.firstFoldMs)} (processor time ${ms(of.foldProcessorMs)}); ${mb(of.foldHeapBytes)} of heap`,
		...Object.entries(of.oneMore).map(([sort, measured]) => `  one more ${sort}: ${both(measured)}`),
		`  one count more: newest ${both(of.newest)}, 30 days late ${both(of.thirtyDaysLate)}`,
		`  a correction of the oldest ${both(of.correctionOfTheOldest)}, undo ${both(of.undo)}`,
		`  200 late ones at once ${ms(of.twoHundredLateMs)}; schema ${of.schemaMicroseconds.toFixed(1)} microseconds an entry`,
		`  saved in ${ms(of.saveMs)} as ${mb(of.savedBytes)}, restored in ${ms(of.restoreMs)}`
	];
}

function serverLines(of: ServerFigures): string[] {
	const append = of.append.map(
		(one) => `${one.logs} logs ${ms(one.serverMs)} + ${ms(one.deviceMs)} on the device`
	);
	return [
		`${of.entries} entries on a server: ${of.volumes} volumes, ${mb(of.volumeBytes)} (${mb(of.volumeLineBytes)} unpacked)`,
		`  open document of ${of.openEntries} entries ${mb(of.openDocumentBytes)}, loaded in ${ms(of.loadMs)}`,
		`  append: ${append.join('; ')}`,
		`  guard ${of.guardMicroseconds.toFixed(1)} microseconds an entry; ${of.acceptedPerSecond.toFixed(0)} entries a second accepted`
	];
}

function deviceLines(of: DeviceFigures): string[] {
	const { node, browser } = of;
	const parts = `fetching ${ms(node.fetchMs)}, reading ${ms(node.readMs)}, folding ${ms(node.foldMs)}`;
	const own = `${of.entries} entries on a new device: usable in ${ms(node.usableMs)} in Node (${parts})`;
	if (browser.length === 0) return [own, '  no Chromium found: not measured in a browser'];
	return [
		own,
		...browser.flatMap((one) => ('problem' in one ? [`  in Chromium: ${one.problem}`] : browserLines(one)))
	];
}

function browserLines(of: BrowserFigures): string[] {
	const slowed = of.isWorkerSlowed ? 'page and worker' : 'the page alone';
	const how =
		of.slowedTimes === 1
			? 'at full speed'
			: `asked to be ${of.slowedTimes} times as slow (${slowed}; a loop took ${of.slowedByLoop.toFixed(1)} times as long)`;
	const heap = of.workerHeapBytes === null ? 'not told' : mb(of.workerHeapBytes);
	return [
		`  Chromium ${how}: first usable screen ${ms(of.firstUsableScreenMs)}, the whole record ${ms(of.wholeRecordMs)}; first screen again ${ms(of.secondOpeningMs)}`,
		`  longest blocked frame ${ms(of.longestBlockedFrameMs)}; heap of the page ${mb(of.pageHeapBytes)}, of the worker ${heap}`
	];
}

export const bench: Bench = { run, lines, aims };
