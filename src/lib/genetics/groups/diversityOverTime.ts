import type { GroupEvent } from './event.ts';
import { groupEventProblems } from './groupEventProblems.ts';
import { growBy } from './grow.ts';
import { inbreedingOf } from './inbreedingOf.ts';
import { kinshipWithSelf } from './kinshipWithSelf.ts';
import { growingFrom } from './table.ts';

export interface DiversityThen {
	/** So many events had happened. */
	readonly after: number;
	readonly geneDiversity: number;
	/** Mean inbreeding of all fish then. */
	readonly inbreeding: number;
	/** Fish in all units then. */
	readonly fish: number;
}

/**
 * Diversity over time: how did the variety of a line fall, event by event?
 *
 * The table grows once; at each of the given moments all units that then hold fish are taken together.
 * Source: as `groupKinship` and `kinshipWithSelf`.
 * Cost: that of the table, and O(units²) for each moment.
 *
 * @param events as for `groupKinship`
 * @param after moments, as numbers of events that had happened, rising
 * @returns one for each moment at which there were fish
 * @throws RangeError when the events do not fit
 * @example
 * diversityOverTime([{ kind: 'founders', unit: 'wild', count: 4 }], [1])[0].geneDiversity // => 0.875
 */
export function diversityOverTime(events: readonly GroupEvent[], after: readonly number[]): DiversityThen[] {
	const [problem] = groupEventProblems(events);
	if (problem)
		throw new RangeError(
			`diversityOverTime requires events that fit, got ${problem.code} for ${problem.ids.join(', ')}`
		);
	const table = growingFrom({
		units: [],
		index: new Map(),
		count: [],
		emptied: [],
		self: [],
		within: [],
		between: []
	});
	let done = 0;
	return after.flatMap((moment) => {
		for (; done < Math.min(moment, events.length); done++) growBy(table, events[done]!);
		const units = table.units.filter((_, i) => !table.emptied[i]);
		if (units.length === 0) return [];
		const fish = units.reduce((sum, unit) => sum + table.count[table.index.get(unit)!]!, 0);
		const geneDiversity = 1 - kinshipWithSelf(table, units);
		return [{ after: moment, geneDiversity, inbreeding: inbreedingOf(table, units), fish }];
	});
}
