/**
 * The fold's figures, in a process of its own so that its memory is its own: `node --expose-gc ledgerFold.ts <entries>`
 * prints JSON. Times in ms; memory in bytes of JavaScript heap after collecting garbage.
 */
import { Fold, type FoldInput } from '#records/fold.ts';
import { kinds } from '#records/kinds.ts';
import type { Entry } from '#records/entry.ts';
import { ledgerHistory } from './ledgerHistory.ts';

export interface Times {
	readonly median: number;
	readonly slowest: number;
	readonly measured: number;
}
export interface FoldFigures {
	readonly entries: number;
	readonly textBytes: number;
	/** From JSON texts to the club state, in one go: the first time, and the quickest of all. */
	readonly firstFoldMs: number;
	readonly foldMs: number;
	readonly folds: number;
	/** Processor time of all threads in the first fold. */
	readonly foldProcessorMs: number;
	readonly foldHeapBytes: number;
	readonly things: number;
	/** The club's last entries, one by one, by their kind; then what the server says of people's rights. */
	readonly oneMore: Readonly<Record<string, Times>>;
	/** One count more. */
	readonly newest: Times;
	readonly thirtyDaysLate: Times;
	readonly correctionOfTheOldest: Times;
	readonly undo: Times;
	/** 200 entries of the last month, at once. */
	readonly twoHundredLateMs: number;
	/** Checking a body against its kind's schema, per entry. */
	readonly schemaMicroseconds: number;
	/** Saved state: making it, its size as text, reading it back. */
	readonly saveMs: number;
	readonly savedBytes: number;
	readonly restoreMs: number;
}

const size = Number(process.argv[2]);
if (!Number.isSafeInteger(size) || !globalThis.gc)
	throw new Error('node --expose-gc ledgerFold.ts <entries>');
const collect = globalThis.gc;
const day = 86_400_000;

function timed(work: () => void): number {
	const start = performance.now();
	work();
	return performance.now() - start;
}

function times(measured: readonly number[]): Times {
	const sorted = measured.toSorted((a, b) => a - b);
	return { median: sorted[sorted.length >> 1] ?? 0, slowest: sorted.at(-1) ?? 0, measured: sorted.length };
}

function inputs(seed: number, entries: number): FoldInput[] {
	return ledgerHistory(seed, entries).map(({ entry, stamp }) => ({
		text: JSON.stringify(entry),
		...(stamp ? { stamp } : {})
	}));
}

const texts = inputs(1, size);
// A first, small fold warms up the compiler, as any page has done before it folds much.
new Fold().add(inputs(2, 2_000));
collect();
const heapBefore = process.memoryUsage().heapUsed;
const processorBefore = process.cpuUsage();
const fold = new Fold();
const firstFoldMs = timed(() => fold.add(texts));
const { user, system } = process.cpuUsage(processorBefore);
collect();
const foldHeapBytes = process.memoryUsage().heapUsed - heapBefore;

// Others may be at work on the machine: the quickest of several says most about the fold itself.
const folds = 5;
const again = Array.from({ length: folds - 1 }, () => timed(() => new Fold().add(texts)));
const foldMs = Math.min(firstFoldMs, ...again);
collect();

const counts = ledgerHistory(1, size).flatMap(({ entry }) => (entry.kind === 'group/counted' ? [entry] : []));
const lastTime = fold.highestTime;
let made = 0;
function anew(entry: Entry, time: number, more: Partial<Entry> = {}): Entry {
	made += 1;
	const clock = Math.floor(time).toString(16).padStart(12, '0');
	const id = `${clock.slice(0, 8)}-${clock.slice(8)}-7000-9000-${made.toString(16).padStart(12, '0')}`;
	return { ...entry, ...more, id, happened: new Date(Math.floor(time)).toISOString() };
}
const rounds = 101;
const recent = (i: number) => counts[counts.length - 1 - (i % Math.min(counts.length, 400))] as Entry;
const each = (make: (i: number) => Entry) =>
	Array.from({ length: rounds }, (_, i) => {
		const entry = make(i);
		return timed(() => fold.add([{ entry }]));
	});
const newest = times(each((i) => anew(recent(i), lastTime + i)));
const thirtyDaysLate = times(each((i) => anew(recent(i), lastTime - 30 * day + i)));
const correctionOfTheOldest = times(
	each((i) => anew(counts[i] as Entry, lastTime + rounds + i, { corrects: [(counts[i] as Entry).id] }))
);
const undo = times(
	Array.from({ length: rounds }, (_, i) => {
		const entry = anew(recent(i), lastTime + 3 * rounds + i);
		fold.add([{ entry }]);
		return timed(() => fold.remove(entry.id));
	})
);
const late = Array.from({ length: 200 }, (_, i) => ({
	entry: anew(recent(i), lastTime - 30 * day + 500 + i)
}));
const twoHundredLateMs = timed(() => fold.add(late));

/** How the last entries of a club arrive, one after the other. */
function oneByOne(): Record<string, Times> {
	const lastOnes = Math.min(3_000, size / 4);
	const rows = ledgerHistory(1, size);
	const club = new Fold();
	club.add(texts.slice(0, size - lastOnes));
	const measured = new Map<string, number[]>();
	const note = (sort: string, ms: number) => measured.set(sort, [...(measured.get(sort) ?? []), ms]);
	for (const { entry, stamp } of rows.slice(size - lastOnes)) {
		const input = { entry, ...(stamp ? { stamp } : {}) };
		note(
			entry.corrects ? 'correction' : entry.kind,
			timed(() => club.add([input]))
		);
	}
	let n = rows.length;
	const say = (kind: string, body: object, time: number) => {
		n += 1;
		const entry = anew(rows[0]?.entry as Entry, time, { kind, about: [], body: { ...body, askedBy: null } });
		const input = { entry, stamp: { id: entry.id, n, time: Math.floor(time) } };
		note(
			kind,
			timed(() => club.add([input]))
		);
	};
	const [members, rooms, lines] = [club.state.members, club.state.rooms, club.state.lines].map((map) => [
		...map.keys()
	]) as [string[], string[], string[]];
	for (let i = 0; i < 12; i++) {
		const time = club.highestTime + 1_000;
		const [room, member, line] = [rooms[i], members[i + 5], lines[i % lines.length]];
		say('club/keeperAdded', { room, member, epoch: room }, time);
		say('club/keeperRemoved', { room, member, epoch: room }, time + 1);
		say('club/roleGiven', { member, role: 'deputy', of: line }, time + 2);
		say('club/roleEnded', { member, role: 'deputy', of: line }, time + 3);
		say('club/memberLeft', { member: members[i + 20] }, time + 4);
		say('club/memberJoined', { member: members[i + 20], name: 'Back again' }, time + 5);
	}
	return Object.fromEntries([...measured].map(([sort, all]) => [sort, times(all)]));
}
const oneMore = oneByOne();

const bodies = ledgerHistory(1, Math.min(size, 20_000)).map(({ entry }) => ({
	kind: kinds.get(entry.kind),
	body: entry.body
}));
const schemaMs = timed(() => {
	for (const { kind, body } of bodies)
		if (!kind?.schema.safeParse(body).success) throw new Error('not well formed');
});

let saved = fold.save();
const saveMs = timed(() => (saved = fold.save()));
const savedBytes = saved.items.reduce((sum, text) => sum + text.length, 0);
const restoreMs = timed(() => Fold.restore(saved));

const figures: FoldFigures = {
	entries: size,
	textBytes: texts.reduce((sum, { text = '' }) => sum + Buffer.byteLength(text), 0),
	firstFoldMs,
	foldMs,
	folds,
	foldProcessorMs: (user + system) / 1000,
	foldHeapBytes,
	things: Object.values(fold.state).reduce(
		(sum, part: unknown) => sum + (part instanceof Map ? part.size : 0),
		0
	),
	oneMore,
	newest,
	thirtyDaysLate,
	correctionOfTheOldest,
	undo,
	twoHundredLateMs,
	schemaMicroseconds: (schemaMs / bodies.length) * 1000,
	saveMs,
	savedBytes,
	restoreMs
};
console.log(JSON.stringify(figures));
