/**
 * The search behind `kinshipRanges` and `broodsToSettle`: the recursion run over every way of some open events, and
 * over the least and greatest of all ways of the others at once.
 */
import type { FoundersEvent, GroupEvent, UnitId } from '../groups/event.ts';
import { groupFigure, type GroupQuestion } from '../groups/groupFigure.ts';
import { growBy } from '../groups/grow.ts';
import { addUnit, dropUnits, growingFrom, type GroupKinship, type GrowingTable } from '../groups/table.ts';
import type { EventsBehind } from './eventsBehind.ts';
import type { OpenEvent } from './openEvents.ts';
import { openEvents } from './openEvents.ts';

/** Which end of a range a table holds. Every step of the recursion only adds and averages, so it keeps the order. */
type End = 'least' | 'greatest';

export interface Step {
	readonly event: GroupEvent;
	/** Place in the whole list of events. */
	readonly place: number;
	/** The ways that it may have been; null when it is settled. */
	readonly open: OpenEvent | null;
}

const empty: GroupKinship = {
	units: [],
	index: new Map(),
	count: [],
	emptied: [],
	self: [],
	within: [],
	between: []
};

export function stepsOf({ events, places }: EventsBehind): Step[] {
	const open = new Map(openEvents(events).map((one) => [one.place, one]));
	return events.map((event, i) => ({ event, place: places[i]!, open: open.get(i) ?? null }));
}

export function unitsOf(question: GroupQuestion): readonly UnitId[] {
	return question.ask === 'between' ? [...question.these, ...question.those] : question.units;
}

/** How many numbers a search writes or reads, roughly: what its time goes with. */
export function workOf(
	steps: readonly Step[],
	tried: ReadonlySet<number>,
	questions: readonly GroupQuestion[]
): number {
	let tables = 1;
	let units = 0;
	let work = 0;
	for (const { event, place, open } of steps) {
		const ways = open?.ways.length ?? 1;
		if (tried.has(place)) tables *= ways;
		const fresh =
			event.kind === 'spawn' || event.kind === 'generations'
				? event.young.length
				: event.kind === 'oneOf'
					? event.units.length
					: 1;
		const sources = event.kind === 'merge' ? event.of.length : 2;
		work += tables * fresh * sources * (units + 10) * (tried.has(place) ? 1 : ways);
		units += fresh;
	}
	return work + tables * questions.reduce((sum, question) => sum + unitsOf(question).length ** 2 + 50, 0);
}

/**
 * Runs the recursion for every combination of the ways of the `tried` events, and calls `leaf` with the number of
 * the way of each (by place, in order of the steps) and the least and greatest of every figure then possible.
 */
export function search(
	steps: readonly Step[],
	tried: ReadonlySet<number>,
	questions: readonly GroupQuestion[],
	leaf: (ways: readonly number[], least: readonly number[], greatest: readonly number[]) => void
): void {
	// Two tables only where something stays open in a leaf: otherwise least and greatest are one.
	const settled = steps.every(
		({ event, place, open }) => !isAssumed(event) && (open === null || tried.has(place))
	);
	const least = growingFrom(empty);
	const greatest = settled ? null : growingFrom(empty);
	const ways: number[] = [];
	const run = (from: number): void => {
		for (let i = from; i < steps.length; i++) {
			const { event, place, open } = steps[i]!;
			if (open && tried.has(place)) {
				const back = [least, greatest].map((table) => table && remember(table));
				open.ways.forEach((way, k) => {
					ways.push(k);
					growBy(least, way.event);
					if (greatest) growBy(greatest, way.event);
					run(i + 1);
					ways.pop();
					for (const restore of back) restore?.();
				});
				return;
			}
			grow(least, event, open, 'least');
			if (greatest) grow(greatest, event, open, 'greatest');
		}
		const low = questions.map((question) => groupFigure(least, question));
		leaf(ways, low, greatest ? questions.map((question) => groupFigure(greatest, question)) : low);
	};
	run(0);
}

/**
 * One combination of ways that looks extreme: at each open event the way whose fish are closest to all others, or
 * furthest, or first of all most or least inbred. Where its figure meets a bound, that is the true end of the range.
 */
export function extremeTable(steps: readonly Step[], end: End, first: 'inbreeding' | 'all'): GroupKinship {
	const table = growingFrom(empty);
	for (const { event, open } of steps) {
		if (!open) {
			grow(table, event, null, end);
			continue;
		}
		const restore = remember(table);
		const size = table.units.length;
		let best: GroupEvent | undefined;
		let bestSum = 0;
		for (const way of open.ways) {
			growBy(table, way.event);
			let sum = 0;
			for (let i = size; i < table.units.length; i++) {
				// A thousand outweighs the kinship with as many others.
				sum += table.self[i]! * (first === 'inbreeding' ? 1000 : 1) + table.within[i]!;
				for (const kinship of table.between[i]!) sum += kinship;
			}
			if (end === 'least') sum = -sum;
			if (best === undefined || sum > bestSum) [best, bestSum] = [way.event, sum];
			restore();
		}
		growBy(table, best!);
	}
	return table;
}

/** A way back to how a table is now. */
function remember(table: GrowingTable): () => void {
	const size = table.units.length;
	const count = [...table.count];
	const emptied = [...table.emptied];
	return () => {
		dropUnits(table, size);
		for (let i = 0; i < size; i++) {
			table.count[i] = count[i]!;
			table.emptied[i] = emptied[i]!;
		}
	};
}

function grow(table: GrowingTable, event: GroupEvent, open: OpenEvent | null, end: End): void {
	if (open) growByAny(table, open, end);
	else growBy(table, isAssumed(event) ? extremeFounders(event, end) : event);
}

export function isAssumed(event: GroupEvent): event is FoundersEvent {
	return event.kind === 'founders' && event.assumed === true;
}

function extremeFounders(event: FoundersEvent, end: End): FoundersEvent {
	const { related = [], within = 0, atMost = 0 } = event;
	if (end === 'greatest') return { ...event, within: Math.max(within, atMost) };
	return { ...event, within: 0, related: related.map(({ unit }) => ({ unit, kinship: 0 })) };
}

/** Adds units whose every number is the least, or the greatest, that any way gives. */
function growByAny(table: GrowingTable, open: OpenEvent, end: End): void {
	const further = end === 'least' ? Math.min : Math.max;
	const restore = remember(table);
	const size = table.units.length;
	let self: number[] = [];
	let within: number[] = [];
	let rows: Float64Array[] = [];
	open.ways.forEach((way, k) => {
		growBy(table, way.event);
		if (k === 0) {
			self = table.self.slice(size);
			within = table.within.slice(size);
			rows = table.between.slice(size);
		} else
			rows.forEach((row, i) => {
				self[i] = further(self[i]!, table.self[size + i]!);
				within[i] = further(within[i]!, table.within[size + i]!);
				const other = table.between[size + i]!;
				for (let j = 0; j < row.length; j++) row[j] = further(row[j]!, other[j]!);
			});
		if (k < open.ways.length - 1) restore();
	});
	const made = rows.map((_, i) => ({ id: table.units[size + i]!, count: table.count[size + i]! }));
	dropUnits(table, size);
	made.forEach((unit, i) => addUnit(table, { ...unit, self: self[i]!, within: within[i]! }, rows[i]!));
}
