import { isStanding } from '#club/lines/holdings.ts';
import type { ClubState, Group } from '#records/state.ts';
import type { Counted } from './figures/weighing.ts';
import type { KinshipOfGroups } from './kinshipOfGroups.ts';

/** Groups of the line that have fish, each with its units and how many fish are in them. */
export function livingGroups(
	state: ClubState,
	kinship: KinshipOfGroups
): readonly { readonly group: Group; readonly fish: readonly Counted[] }[] {
	return [...kinship.events.units.keys()]
		.flatMap((id) => state.groups.get(id) ?? [])
		.filter((group) => isStanding(group) && kinship.knows(group.id))
		.map((group) => ({ group, fish: kinship.fishOf([group.id]) }));
}
