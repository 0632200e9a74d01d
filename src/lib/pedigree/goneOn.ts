import type { GroupEvent } from '#genetics/groups/event.ts';
import { groupKinship } from '#genetics/groups/groupKinship.ts';
import type { GroupKinship } from '#genetics/groups/table.ts';

/** A table and the events that it came from. */
export interface GrownTable {
	readonly events: readonly GroupEvent[];
	readonly table: GroupKinship;
}

/**
 * Gone on: the table of these events, with every row taken over that an earlier table has already.
 *
 * Events that are the same from the start give the same rows; only what follows is computed. So one new brood or bag
 * at the end costs one new row, and a correction costs what comes after the place that it changes.
 * Source: none needed, rows depend on nothing that comes later.
 * Cost: O(events) to compare, and the rows of what differs.
 *
 * @returns a table whose first rows are the same objects as those of the earlier one, as far as the events agree
 */
export function goneOn(events: readonly GroupEvent[], earlier: GrownTable | null): GrownTable {
	if (!earlier) return { events, table: groupKinship(events) };
	let same = 0;
	while (same < events.length && same < earlier.events.length && isSame(events[same]!, earlier.events[same]!))
		same++;
	if (same === events.length && same === earlier.events.length) return earlier;
	const start =
		same === earlier.events.length ? earlier.table : tableUntil(earlier.table, events.slice(0, same));
	return { events, table: groupKinship(events.slice(same), start) };
}

/** Events are plain data written in one order of keys: the same text is the same event. */
function isSame(a: GroupEvent, b: GroupEvent): boolean {
	return a === b || (a.kind === b.kind && JSON.stringify(a) === JSON.stringify(b));
}

/** The table as it stood after its first events: rows stay as they are, numbers of fish are counted again. */
function tableUntil(table: GroupKinship, events: readonly GroupEvent[]): GroupKinship {
	const count: number[] = [];
	const emptied: boolean[] = [];
	const at = (unit: string) => table.index.get(unit)!;
	const begin = (fish: number) => {
		count.push(fish);
		emptied.push(false);
	};
	for (const event of events) {
		if (event.kind === 'founders') begin(event.count);
		else if (event.kind === 'count') {
			if (event.count === 0) emptied[at(event.unit)] = true;
			else count[at(event.unit)] = event.count;
		} else if (event.kind === 'split') {
			const from = at(event.from);
			if (count[from] === event.count) emptied[from] = true;
			else count[from]! -= event.count;
			begin(event.count);
		} else if (event.kind === 'merge') {
			begin(event.of.reduce((sum, unit) => sum + count[at(unit)]!, 0));
			for (const unit of event.of) emptied[at(unit)] = true;
		} else if (event.kind === 'spawn') {
			for (const side of [event.fathers, event.mothers]) if (side.name !== undefined) begin(1);
			for (const young of event.young) begin(young.count);
		} else throw new RangeError(`goneOn requires events of lineEvents, got ${event.kind}`);
	}
	const size = count.length;
	const units = table.units.slice(0, size);
	return {
		...{ units, index: new Map(units.map((unit, i) => [unit, i])), count, emptied },
		...{ self: table.self.slice(0, size), within: table.within.slice(0, size) },
		between: table.between.slice(0, size)
	};
}
