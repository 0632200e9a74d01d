import type { DeviceId } from '#records/entry.ts';
import { namesOf } from '#records/names.ts';
import { idTime } from '#records/rank.ts';
import type { ClubState } from '#records/state.ts';
import type { Asking } from '../question.ts';
import { statement, type Statement } from './statement.ts';

/**
 * Today on this device: what was written here since this moment, newest first?
 *
 * @param args.since ms since 1970, usually the last midnight
 */
export function todayOnDevice(
	state: ClubState,
	args: { readonly device: DeviceId; readonly since: number },
	asking: Asking
): Statement[] {
	const names = namesOf(state, asking.fold);
	const mine: string[] = [];
	for (const id of asking.fold.ids()) {
		if ((idTime(id) ?? 0) >= args.since && asking.fold.entry(id)?.device === args.device) mine.push(id);
	}
	return mine.sort((a, b) => (a < b ? 1 : -1)).flatMap((id) => statement(id, state, names, asking) ?? []);
}
