/** What the ledger should reach, beside what it does. The aims were set before anything was measured. */
import type { LedgerFigures } from './ledger.ts';
import type { Times } from './ledgerFold.ts';
import type { Aim } from './main.ts';

const atMost = (what: string, limit: number, unit: string, measured: number | null): Aim => ({
	what,
	limit,
	unit,
	measured,
	isReached: measured !== null && measured <= limit
});

/** Aims are for the largest club that was measured. */
export function ledgerAims({ fold, server, device }: LedgerFigures): Aim[] {
	const [folded, served, opened] = [fold.at(-1), server.at(-1), device.at(-1)];
	if (!folded || !served || !opened) return [];
	const { newest, thirtyDaysLate, correctionOfTheOldest, undo } = folded;
	const sorts: [string, Times][] = [
		...Object.entries(folded.oneMore),
		['count 30 days late', thirtyDaysLate],
		['newest count', newest],
		['correction of the oldest', correctionOfTheOldest],
		['undo', undo]
	];
	const [members, servers] = [false, true].map((isServers) =>
		sorts.filter(([sort]) => sort.startsWith('club/') === isServers)
	) as [typeof sorts, typeof sorts];
	const of = (entries: number) => `${entries.toLocaleString('en')} entries`;
	const browser = opened.browser.find((one) => 'slowedTimes' in one && one.slowedTimes === 1);
	const inBrowser = browser && 'slowedTimes' in browser ? browser.wholeRecordMs : null;
	return [
		atMost(`${of(folded.entries)} folded in Node`, 1_000, 'ms', folded.foldMs),
		atMost(`one more of any sort a member writes, median (${slowest(members)})`, 1, 'ms', medianOf(members)),
		atMost(`one more word of the server on rights, median (${slowest(servers)})`, 1, 'ms', medianOf(servers)),
		atMost(
			'guard and schema, per entry',
			25,
			'microseconds',
			served.guardMicroseconds + folded.schemaMicroseconds
		),
		atMost(
			`${of(opened.entries)} usable on a new device, Node on loopback`,
			3_000,
			'ms',
			opened.node.usableMs
		),
		atMost(
			`${of(opened.entries)} whole on a new device’s screen, Chromium at full speed`,
			3_000,
			'ms',
			inBrowser
		)
	];
}

const byMedian = (sorts: readonly [string, Times][]) => sorts.toSorted((a, b) => b[1].median - a[1].median);
const slowest = (sorts: readonly [string, Times][]) => `the slowest is ${byMedian(sorts)[0]?.[0] ?? 'none'}`;
const medianOf = (sorts: readonly [string, Times][]) => byMedian(sorts)[0]?.[1].median ?? null;
