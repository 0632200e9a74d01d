import type { GroupEvent, UnitId } from '../groups/event.ts';
import { openEvents } from './openEvents.ts';

/** What is not settled behind units. */
export interface OpenBehind {
	/** Of these units together: places of open events, in order, and founders whose kinship is a guess. */
	of(units: readonly UnitId[]): { readonly open: readonly number[]; readonly assumed: readonly UnitId[] };
	/** How many ways each open event has, by its place. */
	readonly ways: ReadonlyMap<number, number>;
}

/**
 * Open behind: what is not settled among all that these fish came from?
 *
 * One pass from the oldest event to the youngest: a unit rests on what its sources rest on and on its own event.
 * Source: none needed, this follows what the events say.
 * Cost: O(events times open events / 32) once, then O(units asked times open events / 32).
 *
 * @param events as for `groupKinship`, and such that they fit
 * @returns a way to ask for any units; of a unit never heard of: nothing
 * @example
 * openBehind([{ kind: 'founders', unit: 'shop', count: 6, within: 0.25, assumed: true }]).of(['shop']).assumed // => ['shop']
 */
export function openBehind(events: readonly GroupEvent[]): OpenBehind {
	const open = openEvents(events);
	const assumed = events.flatMap((event) => (event.kind === 'founders' && event.assumed ? [event.unit] : []));
	const placeBit = new Map(open.map(({ place }, i) => [place, i]));
	const founderBit = new Map(assumed.map((unit, i) => [unit, open.length + i]));
	const words = Math.ceil((open.length + assumed.length) / 32);
	const bits = new Map<UnitId, Uint32Array>();
	const union = (units: Iterable<UnitId | null>) => {
		const all = new Uint32Array(words);
		for (const unit of units) {
			const one = unit === null ? undefined : bits.get(unit);
			if (one) for (let w = 0; w < words; w++) all[w]! |= one[w]!;
		}
		return all;
	};
	events.forEach((event, place) => {
		const { made, sources } = flow(event);
		if (made.length === 0) return;
		const all = union(sources);
		const bit = placeBit.get(place) ?? (event.kind === 'founders' ? founderBit.get(event.unit) : undefined);
		if (bit !== undefined) all[bit >>> 5]! |= 1 << (bit & 31);
		for (const unit of made) bits.set(unit, all);
	});
	const has = (all: Uint32Array, bit: number) => ((all[bit >>> 5]! >>> (bit & 31)) & 1) === 1;
	return {
		of: (units) => {
			const all = union(units);
			return {
				open: open.flatMap(({ place }, i) => (has(all, i) ? [place] : [])),
				assumed: assumed.filter((_, i) => has(all, open.length + i))
			};
		},
		ways: new Map(open.map(({ place, ways }) => [place, ways.length]))
	};
}

/** Units that an event makes, and units that their fish came from. */
function flow(event: GroupEvent): { made: UnitId[]; sources: (UnitId | null)[] } {
	switch (event.kind) {
		case 'founders':
			return { made: [event.unit], sources: [] };
		case 'spawn': {
			const sides = [event.fathers, event.mothers];
			return {
				made: [
					...sides.flatMap(({ name }) => (name === undefined ? [] : [name])),
					...event.young.map(({ unit }) => unit)
				],
				sources: sides.flatMap(({ from }) => from.filter(({ weight }) => weight > 0).map(({ unit }) => unit))
			};
		}
		case 'split':
			return { made: [event.unit], sources: [event.from] };
		case 'oneOf':
			return {
				made: event.units.map(({ unit }) => unit),
				sources: event.from.flatMap(({ units, weight }) => (weight > 0 ? units : []))
			};
		case 'merge':
			return { made: [event.unit], sources: [...event.of] };
		case 'generations':
			return {
				made: event.young.map(({ unit }) => unit),
				sources: [...event.fathers, ...event.mothers]
			};
		case 'count':
			return { made: [], sources: [] };
	}
}
