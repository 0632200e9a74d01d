import { dayText } from '#records/dayText.ts';
import type { ThingId } from '#records/entry.ts';
import type { ClubState } from '#records/state.ts';

/**
 * A group's name where its line is named already: its own, or what tells it from the others, as in "brood of June 2026".
 */
export function groupInLine(state: ClubState, id: ThingId): string {
	const group = state.groups.get(id);
	if (!group) return 'a group not heard of yet';
	if (group.name) return group.name;
	const sort = group.origin.from === 'brood' ? 'brood' : 'group';
	const begun = (group.started?.when.text ?? '').slice(0, 7);
	if (!/^\d{4}-\d\d$/.test(begun)) return `a ${sort}`;
	return `${sort} of ${dayText(`${begun}-01`).replace(/^1 /, '')}`;
}
