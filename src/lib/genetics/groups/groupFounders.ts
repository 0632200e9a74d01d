import type { GroupEvent, ParentSide, UnitId } from './event.ts';

/** What founders have given to the fish asked about. */
export interface GroupFounders {
	/** Share of the genes, 0 to 1, by unit of founders, and how many founders were in it; in order of the events. */
	readonly founders: readonly { readonly unit: UnitId; readonly fish: number; readonly share: number }[];
	/** Share of parents that are not in the record, one number for each of them. */
	readonly outside: readonly number[];
	/**
	 * How many founders that gave equally would be as even as these: 1 / sum p² over single founders, and as many
	 * fewer as these were related among themselves.
	 */
	readonly founderEquivalents: number;
}

/**
 * Group founders: which part of the genes of these fish came from which founders?
 *
 * One pass from the youngest event to the oldest: the share of young goes half to the fathers and half to the
 * mothers, by their weights, that of a merged unit to its parts by their fish. Expected shares: which fish of a unit
 * bred is not known. Founder equivalents are 1 / (2 sum p_f p_g K(f,g)) over units of founders, with K their kinship
 * when they came; for unrelated founders that are not inbred it is 1 / sum p², Lacy's definition, fish by fish.
 * Source: Lacy (1989), Zoo Biology 8:111 (founder equivalents); James (1972) for shares (from memory). Differs in:
 * founders that are brothers and sisters count as the fish that they came from.
 * Cost: O(events + candidates + founder units that are related).
 *
 * @param events as for `groupKinship`, and such that they fit
 * @param units those asked about, weighted by the fish that they hold in the end
 * @returns shares; together with the outside they sum to 1
 * @throws RangeError when a unit is not known or none is given
 * @example
 * const wild = { kind: 'founders', unit: 'wild', count: 4 };
 * groupFounders([wild], ['wild']).founderEquivalents // => 4
 */
export function groupFounders(events: readonly GroupEvent[], units: readonly UnitId[]): GroupFounders {
	const { held, partsAt } = countsOf(events);
	const all = units.reduce((sum, unit) => sum + (held.get(unit) ?? NaN), 0);
	if (!(all > 0))
		throw new RangeError(`groupFounders requires known units, got ${units.join(', ') || 'none'}`);
	const shares = new Map<UnitId, number>();
	const give = (unit: UnitId, share: number) => shares.set(unit, (shares.get(unit) ?? 0) + share);
	const take = (unit: UnitId) => {
		const share = shares.get(unit) ?? 0;
		shares.delete(unit);
		return share;
	};
	for (const unit of units) give(unit, held.get(unit)! / all);

	const founders: { unit: UnitId; fish: number; share: number }[] = [];
	const outside: number[] = [];
	const giveSide = (side: ParentSide, share: number) => {
		const total = side.from.reduce((sum, { weight }) => sum + weight, 0);
		const own = share + (side.name === undefined ? 0 : take(side.name));
		for (const { unit, weight } of side.from) {
			if (unit !== null) give(unit, (own * weight) / total);
			else if (own * weight > 0) outside.push((own * weight) / total);
		}
	};
	for (let place = events.length - 1; place >= 0; place--) {
		const event = events[place]!;
		if (event.kind === 'founders')
			founders.push({ unit: event.unit, fish: event.count, share: take(event.unit) });
		else if (event.kind === 'spawn') {
			const young = event.young.reduce((sum, { unit }) => sum + take(unit), 0);
			giveSide(event.mothers, young / 2);
			giveSide(event.fathers, young / 2);
		} else if (event.kind === 'split') give(event.from, take(event.unit));
		else if (event.kind === 'oneOf')
			event.units.forEach(({ unit }, k) => {
				const share = take(unit);
				const total = event.from.reduce((sum, { weight }) => sum + weight, 0);
				for (const { units: from, weight } of event.from) give(from[k]!, (share * weight) / total);
			});
		else if (event.kind === 'merge') {
			const share = take(event.unit);
			for (const [unit, part] of partsAt.get(place)!) give(unit, share * part);
		} else if (event.kind === 'generations') {
			const young = event.young.reduce((sum, { unit }) => sum + take(unit), 0);
			for (const [unit, part] of partsAt.get(place)!) give(unit, (young / 2) * part);
		}
	}
	founders.reverse();
	outside.reverse();
	return { founders, outside, founderEquivalents: founderEquivalents(events, founders, outside) };
}

function founderEquivalents(
	events: readonly GroupEvent[],
	founders: readonly { readonly unit: UnitId; readonly share: number }[],
	outside: readonly number[]
): number {
	const share = new Map(founders.map((one) => [one.unit, one.share]));
	let sum = outside.reduce((squares, p) => squares + p * p, 0);
	for (const event of events) {
		if (event.kind !== 'founders') continue;
		const p = share.get(event.unit)!;
		const { count, within = 0, inbreeding = 0, related = [] } = event;
		sum += 2 * p * p * ((1 + inbreeding) / 2 / count + (1 - 1 / count) * within);
		for (const { unit, kinship } of related) sum += 4 * p * (share.get(unit) ?? 0) * kinship;
	}
	return 1 / sum;
}

/** Fish of each unit in the end, and, where units are put together, the share of each by its fish of that time. */
function countsOf(events: readonly GroupEvent[]) {
	const held = new Map<UnitId, number>();
	const partsAt = new Map<number, readonly (readonly [UnitId, number])[]>();
	const parts = (units: readonly UnitId[]) => {
		const all = units.reduce((sum, unit) => sum + held.get(unit)!, 0);
		return units.map((unit) => [unit, held.get(unit)! / all] as const);
	};
	events.forEach((event, place) => {
		if (event.kind === 'founders' || (event.kind === 'count' && event.count > 0))
			held.set(event.unit, event.count);
		else if (event.kind === 'spawn') {
			for (const { name } of [event.fathers, event.mothers]) if (name !== undefined) held.set(name, 1);
			for (const { unit, count } of event.young) held.set(unit, count);
		} else if (event.kind === 'split') {
			const stayed = held.get(event.from)! - event.count;
			if (stayed > 0) held.set(event.from, stayed);
			held.set(event.unit, event.count);
		} else if (event.kind === 'oneOf') for (const { unit, count } of event.units) held.set(unit, count);
		else if (event.kind === 'merge') {
			partsAt.set(place, parts(event.of));
			held.set(
				event.unit,
				event.of.reduce((sum, unit) => sum + held.get(unit)!, 0)
			);
		} else if (event.kind === 'generations') {
			partsAt.set(place, [...parts(event.fathers), ...parts(event.mothers)]);
			for (const { unit, count } of event.young) held.set(unit, count);
		}
	});
	return { held, partsAt };
}
