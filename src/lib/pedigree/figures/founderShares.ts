import { groupFounders } from '#genetics/groups/groupFounders.ts';
import type { UnitId } from '#genetics/groups/event.ts';
import type { ThingId } from '#records/entry.ts';
import type { LineKinship } from '../lineKinship.ts';
import type { SideRecipe } from './recipes.ts';
import type { Counted } from './weighing.ts';

export interface FounderGroup {
	readonly group: ThingId;
	readonly units: readonly UnitId[];
	/** Founders in it. */
	readonly fish: number;
	/** Share of the genes of the living, 0 to 1: as expected, and the least and greatest that the record leaves open. */
	readonly share: number;
	readonly least: number;
	readonly greatest: number;
}
export interface FounderShares {
	readonly groups: readonly FounderGroup[];
	/** Share of parents that are not in the record, one number for each of them. */
	readonly outside: readonly number[];
	readonly founderEquivalents: number;
}

/**
 * Founder shares: which part of the living fish's genes comes from which first fish, and what could it be?
 *
 * The range follows each group of founders through all events twice, with the parents that give least and most; a
 * sure bound, as in `boundsOf`.
 * Source: `groupFounders`; ranges: our own choice, interval arithmetic (Moore 1966; from memory).
 * Cost: O(groups of founders times events).
 */
export function founderShares(kinship: LineKinship, living: readonly Counted[]): FounderShares {
	const { events, table } = kinship;
	const units = living.map(({ unit }) => table.units[unit]!);
	// Units are weighed by the fish that they end with: some have died or gone since the last event.
	const now = living.map(({ fish: count }, i) => ({ kind: 'count' as const, unit: units[i]!, count }));
	const { founders, outside, founderEquivalents } = groupFounders([...events.events, ...now], units);
	const byGroup = new Map<ThingId, { units: UnitId[]; fish: number; share: number }>();
	for (const { unit, fish, share } of founders) {
		const id = events.groupOf.get(unit) ?? '';
		const { units = [], ...sum } = byGroup.get(id) ?? { fish: 0, share: 0 };
		byGroup.set(id, { units: [...units, unit], fish: sum.fish + fish, share: sum.share + share });
	}
	const groups = [...byGroup].map(([group, { units, fish, share }]) => {
		const own = new Set(units.map((unit) => table.index.get(unit)!));
		const [low, high] = [followed(kinship, own, living, Math.min), followed(kinship, own, living, Math.max)];
		const range = { least: Math.min(share, low), greatest: Math.max(share, high) };
		return { group, units, fish, share, ...range };
	});
	return { groups, outside, founderEquivalents };
}

/** The share of these founders in the living, with the best choice for each open thing. */
function followed(
	kinship: LineKinship,
	founders: ReadonlySet<number>,
	living: readonly Counted[],
	better: (a: number, b: number) => number
): number {
	const share = new Float64Array(kinship.table.units.length);
	const of = (unit: number | null) => (unit === null ? 0 : share[unit]!);
	const best = (side: SideRecipe) => side.sources.map(({ unit }) => of(unit)).reduce((a, b) => better(a, b));
	for (const { kind, units, fathers, mothers } of kinship.recipes)
		for (const unit of units) {
			if (kind === 'founders') share[unit] = founders.has(unit) ? 1 : 0;
			else if (kind === 'spawn') share[unit] = (best(fathers) + best(mothers)) / 2;
			else share[unit] = fathers.sources.reduce((sum, source) => sum + source.weight * of(source.unit), 0);
			const wide = kinship.widened.get(unit);
			for (const other of wide?.orOf ?? []) share[unit] = better(share[unit]!, share[other]!);
			if (wide?.orOutside) share[unit] = better(share[unit]!, 0);
		}
	const all = living.reduce((sum, { fish }) => sum + fish, 0);
	return living.reduce((sum, { unit, fish }) => sum + (fish / all) * share[unit]!, 0);
}
