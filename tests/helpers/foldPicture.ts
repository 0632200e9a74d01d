/** Everything a fold says, as plain data that two folds can be compared by. */
import type { Fold } from '#records/fold.ts';

export function foldPicture(fold: Fold): unknown {
	const state = fold.state;
	const sorted = (map: ReadonlyMap<string, unknown>) => [...map].sort(([a], [b]) => (a < b ? -1 : 1));
	return {
		club: state.club,
		members: sorted(state.members),
		rooms: sorted(state.rooms),
		lines: sorted(state.lines),
		groups: sorted(state.groups),
		spawns: sorted(state.spawns),
		bags: sorted(state.bags),
		exchanges: sorted(state.exchanges),
		meetings: sorted(state.meetings),
		views: [...fold.ids()].sort().map((id) => fold.view(id))
	};
}
