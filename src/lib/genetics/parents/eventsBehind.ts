import type { GroupEvent, UnitId } from '../groups/event.ts';

/** Events that some units rest on, with their places in the list that they were taken from. */
export interface EventsBehind {
	readonly events: readonly GroupEvent[];
	/** Place of each event in the whole list, or of the event that changed the number that is counted here. */
	readonly places: readonly number[];
}

/**
 * Events behind: which events do the figures of these units rest on?
 *
 * Goes back from the units to all that they came from and leaves out the rest. Where fish left a unit that matters
 * for one that does not, a count says how many stayed.
 * Source: none needed: kinship of units never rests on units that neither came from.
 * Cost: O(events + candidates).
 *
 * @param events as for `groupKinship`, and such that they fit
 * @param units those that will be asked about
 * @returns events for `groupKinship`, in order; every figure of these units is as before
 * @example
 * const two = [{ kind: 'founders', unit: 'a', count: 2 }, { kind: 'founders', unit: 'b', count: 2 }];
 * eventsBehind(two, ['b']).places // => [1]
 */
export function eventsBehind(events: readonly GroupEvent[], units: Iterable<UnitId>): EventsBehind {
	const left = countsAfterSplits(events);
	const needed = new Set(units);
	const kept: { event: GroupEvent; place: number }[] = [];
	const need = (unit: UnitId | null) => unit !== null && needed.add(unit);
	for (let place = events.length - 1; place >= 0; place--) {
		const event = events[place]!;
		const keep = (what: GroupEvent) => kept.push({ event: what, place });
		if (event.kind === 'founders') {
			if (needed.has(event.unit)) keep(event);
		} else if (event.kind === 'spawn') {
			const young = event.young.filter(({ unit }) => needed.has(unit));
			const sides = [event.fathers, event.mothers].map((side) => {
				const { name, ...rest } = side;
				const from = side.from.filter(({ weight }) => weight > 0);
				return name !== undefined && needed.has(name) ? { ...rest, from, name } : { ...rest, from };
			});
			const [fathers, mothers] = [sides[0]!, sides[1]!];
			if (young.length === 0 && !('name' in fathers) && !('name' in mothers)) continue;
			// A brood needs young: where only a parent by name matters, they are kept for form's sake.
			keep({ ...event, fathers, mothers, young: young.length ? young : event.young.slice(0, 1) });
			for (const side of sides) for (const { unit } of side.from) need(unit);
		} else if (event.kind === 'split') {
			if (needed.has(event.unit)) {
				keep(event);
				need(event.from);
			} else if (needed.has(event.from) && left[place]! > 0)
				keep({ kind: 'count', unit: event.from, count: left[place]! });
		} else if (event.kind === 'oneOf') {
			const wanted = event.units.map(({ unit }) => needed.has(unit));
			if (!wanted.includes(true)) continue;
			const from = event.from
				.filter(({ weight }) => weight > 0)
				.map((source) => ({ ...source, units: source.units.filter((_, k) => wanted[k]) }));
			keep({ ...event, units: event.units.filter((_, k) => wanted[k]), from });
			for (const source of from) source.units.forEach(need);
		} else if (event.kind === 'merge') {
			if (!needed.has(event.unit)) continue;
			keep(event);
			event.of.forEach(need);
		} else if (event.kind === 'generations') {
			const young = event.young.filter(({ unit }) => needed.has(unit));
			if (young.length === 0) continue;
			keep({ ...event, young });
			[...event.fathers, ...event.mothers].forEach(need);
		} else if (needed.has(event.unit)) keep(event);
	}
	kept.reverse();
	const related = (event: GroupEvent): GroupEvent =>
		event.kind === 'founders' && event.related
			? { ...event, related: event.related.filter(({ unit }) => needed.has(unit)) }
			: event;
	return { events: kept.map(({ event }) => related(event)), places: kept.map(({ place }) => place) };
}

/** For each split, how many fish stayed; 0 elsewhere. */
function countsAfterSplits(events: readonly GroupEvent[]): number[] {
	const count = new Map<UnitId, number>();
	return events.map((event) => {
		if (event.kind === 'founders' || (event.kind === 'count' && event.count > 0))
			count.set(event.unit, event.count);
		else if (event.kind === 'spawn' || event.kind === 'generations')
			for (const { unit, count: born } of event.young) count.set(unit, born);
		else if (event.kind === 'oneOf') for (const { unit, count: came } of event.units) count.set(unit, came);
		else if (event.kind === 'merge')
			count.set(
				event.unit,
				event.of.reduce((sum, unit) => sum + (count.get(unit) ?? 0), 0)
			);
		if (event.kind === 'spawn')
			for (const { name } of [event.fathers, event.mothers]) if (name !== undefined) count.set(name, 1);
		if (event.kind !== 'split') return 0;
		const stayed = (count.get(event.from) ?? 0) - event.count;
		count.set(event.unit, event.count);
		if (stayed > 0) count.set(event.from, stayed);
		return stayed;
	});
}
