import type { ThingId } from '#records/entry.ts';
import { namesOf } from '#records/names.ts';
import type { ClubState } from '#records/state.ts';
import { isStanding } from './holdings.ts';
import { crossedGroups } from './crossedGroups.ts';

export interface CrossOfLine {
	readonly withName: string;
	/** ISO date of the first of it. */
	readonly since: string;
	readonly sure: boolean;
	readonly onPurpose: boolean;
	/** Groups that stand now and are not pure. */
	readonly groups: readonly { readonly id: ThingId; readonly name: string; readonly room: string }[];
}

/** Crosses of a line: with which other lines was it crossed, since when, and which of its groups are not pure? */
export function crossesOf(state: ClubState, line: ThingId): CrossOfLine[] {
	const names = namesOf(state, null);
	const all = [...crossedGroups(state, line)].sort(([a], [b]) => (a < b ? -1 : 1));
	const others = [...new Set(all.flatMap(([, crossed]) => crossed.with))].sort();
	return others.map((other) => {
		const here = all.filter(([, crossed]) => crossed.with.includes(other));
		const since = Math.min(...here.map(([, crossed]) => crossed.since));
		return {
			withName: names.line(other),
			since: new Date(since).toISOString().slice(0, 10),
			sure: here.some(([, { sure }]) => sure),
			onPurpose: here.every(([, { onPurpose }]) => onPurpose),
			groups: here.flatMap(([id]) => {
				const group = state.groups.get(id);
				return group && isStanding(group)
					? [{ id, name: names.group(id), room: group.room ? names.room(group.room) : '' }]
					: [];
			})
		};
	});
}
