import type { ClubState } from '#records/state.ts';
import { founderShares } from './figures/founderShares.ts';
import type { GenesAsk } from './figures/genesByChance.ts';
import { roomsAhead, type RoomsAhead } from './figures/roomsAhead.ts';
import type { KinshipOfGroups } from './kinshipOfGroups.ts';
import { livingGroups } from './livingGroups.ts';

/** What the plays of chance about a line need, as plain data. */
export interface LineChance {
	/** Null where no room can breed. */
	readonly ahead: Pick<RoomsAhead, 'table' | 'rooms'> | null;
	/** Null where nobody has fish of the line. */
	readonly genes: GenesAsk | null;
}

/**
 * Line chance: what must one know of a line to play its future and its past by chance?
 *
 * The same rooms and the same fish as `lineFigures` takes, so that what is played and what is expected agree.
 */
export function lineChance(state: ClubState, kinship: KinshipOfGroups): LineChance {
	const living = livingGroups(state, kinship);
	const { table, rooms } = roomsAhead(
		kinship,
		living.map(({ group }) => group)
	);
	return { ahead: rooms.length ? { table, rooms } : null, genes: genesOf(kinship, living) };
}

function genesOf(kinship: KinshipOfGroups, living: ReturnType<typeof livingGroups>): GenesAsk | null {
	const all = living.flatMap(({ fish }) => fish);
	if (all.length === 0) return null;
	const { groups, outside } = founderShares(kinship, all);
	if (groups.length === 0) return null;
	return {
		events: kinship.events.events,
		living: all.map(({ unit, fish }) => [kinship.table.units[unit]!, fish] as const),
		founders: groups.map(({ group, units, share }) => ({ group, units, share })),
		outside
	};
}
