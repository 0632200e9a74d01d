/** How diversity and inbreeding of a line went, year by year and generation by generation. */
import type { UnitId } from '#genetics/groups/event.ts';
import { howManyFish } from '#records/fishCount.ts';
import type { ClubState } from '#records/state.ts';
import { fishAt } from '../fishAt.ts';
import type { LineKinship } from '../lineKinship.ts';
import { meanSelf, meansWithAll, weighed, type Counted, type Entries } from './weighing.ts';

interface Ranged {
	readonly expected: number;
	readonly least: number;
	readonly greatest: number;
}
export interface YearFigure {
	readonly year: number;
	/** The end of the year, or now; ms since 1970. */
	readonly at: number;
	readonly fish: number;
	/** Gene diversity of the fish that were there then, 0 to 1. */
	readonly diversity: Ranged;
	readonly inbreeding: number;
}
export interface GenerationFigure {
	/** Rounded to whole ones; 0 = of no recorded parents. */
	readonly generation: number;
	/** Young, or founders, of this generation. */
	readonly fish: number;
	readonly inbreeding: Ranged;
	/** Gene diversity of all of them together, 0 to 1. */
	readonly diversity: Ranged;
}

/** Founders and broods by generation, with the fish that each began with. */
export function byGeneration(
	kinship: LineKinship,
	generation: ReadonlyMap<UnitId, number>
): GenerationFigure[] {
	const born = new Map<number, Counted[]>();
	const begin = (id: UnitId, fish: number) => {
		const of = Math.round(generation.get(id) ?? 0);
		const unit = kinship.table.index.get(id);
		if (unit !== undefined) born.set(of, [...(born.get(of) ?? []), { unit, fish }]);
	};
	for (const event of kinship.events.events) {
		if (event.kind === 'founders') begin(event.unit, event.count);
		if (event.kind === 'spawn') for (const young of event.young) begin(young.unit, young.count);
	}
	return [...born]
		.sort(([a], [b]) => a - b)
		.map(([of, units]) => {
			const { expected, least, greatest } = kinship.bounded(meanSelf(units));
			const inbred = (self: number) => Math.max(0, 2 * self - 1);
			return {
				generation: of,
				fish: units.reduce((sum, { fish }) => sum + fish, 0),
				inbreeding: { expected: inbred(expected), least: inbred(least), greatest: inbred(greatest) },
				diversity: diversityOf(kinship, units)
			};
		});
}

/** As `drawnTwice` weighs it, read from the table and from its bounds. */
function diversityOf(kinship: LineKinship, units: readonly Counted[]): Ranged {
	const fish = units.reduce((sum, one) => sum + one.fish, 0);
	const of = (entries: Entries) =>
		meansWithAll(entries, units).reduce((left, mean, i) => left - (mean * units[i]!.fish) / fish, 1);
	const expected = of(kinship.table);
	return {
		expected,
		least: Math.max(0, Math.min(expected, of(kinship.bounds.greatest))),
		greatest: Math.min(1, Math.max(expected, of(kinship.bounds.least)))
	};
}

/**
 * Years from the first fish to now; years in which no fish were there are left out.
 *
 * @param living the fish of now, which are those of the last year
 */
export function byYear(
	state: ClubState,
	kinship: LineKinship,
	now: number,
	living: readonly Counted[]
): YearFigure[] {
	const { events, times, groupOf } = kinship.events;
	const held = new Map<UnitId, number>();
	const figures: YearFigure[] = [];
	const known = times.filter((time) => time > 0);
	const first = known.length ? new Date(Math.min(...known)).getUTCFullYear() : Infinity;
	let place = 0;
	for (let year = first; year <= new Date(now).getUTCFullYear(); year++) {
		const at = Math.min(now, Date.UTC(year + 1, 0, 1) - 1);
		while (place < events.length && times[place]! <= at) {
			const event = events[place++]!;
			if (event.kind === 'founders' || event.kind === 'count') held.set(event.unit, event.count);
			else if (event.kind === 'spawn') for (const young of event.young) held.set(young.unit, young.count);
			else if (event.kind === 'split') {
				held.set(event.unit, event.count);
				held.set(event.from, (held.get(event.from) ?? 0) - event.count);
			} else if (event.kind === 'merge') {
				held.set(
					event.unit,
					event.of.reduce((sum, unit) => sum + (held.get(unit) ?? 0), 0)
				);
				for (const unit of event.of) held.delete(unit);
			}
		}
		const then = [...held].flatMap(([id, fish]): Counted[] => {
			const group = state.groups.get(groupOf.get(id) ?? '');
			const there = group ? fishAt(group, at) : null;
			const hasEnded = group?.ended !== null && group?.ended !== undefined && group.ended.when.last <= at;
			// Founders of one source stand together in the events, whenever each of them came.
			const hasBegun = (group?.started?.when.first ?? 0) <= at;
			const isThere =
				group && hasBegun && !hasEnded && !(there && howManyFish(there) === 0) && !id.endsWith('/outside');
			const unit = kinship.table.index.get(id);
			return isThere && fish > 0 && unit !== undefined ? [{ unit, fish }] : [];
		});
		const units = at === now ? living : then;
		if (units.length === 0) continue;
		figures.push({
			...{ year, at, fish: units.reduce((sum, { fish }) => sum + fish, 0) },
			diversity: diversityOf(kinship, units),
			inbreeding: Math.max(0, 2 * weighed(kinship.table, meanSelf(units)) - 1)
		});
	}
	return figures;
}
