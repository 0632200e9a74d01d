import type { Entry, MemberId } from '#records/entry.ts';
import { kinds } from '#records/kinds.ts';
import type { ClubState } from '#records/state.ts';

/**
 * Does an entry about a bag itself name a room that this member keeps, or a meeting that they run? While nothing of a
 * bag counts yet, the entry is all that says whom it concerns.
 */
export function partNamed(state: ClubState, me: MemberId, entry: Entry): boolean {
	const kind = kinds.get(entry.kind);
	const read = kind && entry.version <= kind.version ? kind.schema.safeParse(entry.body) : null;
	if (!kind || !read?.success) return false;
	const rooms = (kind.places?.(read.data) ?? []).map(([, room]) => room);
	if (rooms.some((room) => state.rooms.get(room)?.keepers.includes(me))) return true;
	const meeting = kind.meeting?.(read.data);
	const roles = state.members.get(me)?.roles ?? [];
	return Boolean(meeting) && roles.some(({ role, of }) => role === 'runner' && of === meeting);
}
