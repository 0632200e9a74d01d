import type { MemberId, ThingId } from '#records/entry.ts';
import type { ThingRef } from '#records/kind.ts';
import type { ClubState } from '#records/state.ts';
import { partIn } from '../people/partIn.ts';
import type { Subject } from './subjectOf.ts';

export interface PartInEntry {
	/** What this member says about it counts by itself. */
	readonly any: boolean;
	readonly officer: boolean;
	/** May decide a dispute of it. */
	readonly decides: boolean;
}

/**
 * Which part does a member have in what an entry tells? For screens, which offer and explain by it; what counts is
 * decided by the fold alone.
 */
export function partInEntry(state: ClubState, me: MemberId, subject: Subject | null): PartInEntry {
	const rooms = new Set<ThingId | null>([null]);
	const lines = new Set<ThingId | null>([null]);
	for (const thing of subject?.things ?? []) {
		const place = placeOf(state, thing);
		for (const room of place.rooms) rooms.add(room);
		if (place.line) lines.add(place.line);
	}
	for (const [, room] of subject?.kind.places?.(subject.body) ?? []) rooms.add(room);
	const parts = [...rooms].flatMap((room) => [...lines].map((line) => partIn(state, me, room, line)));
	const officer = parts.some((part) => part.officer);
	return {
		any: parts.some((part) => part.any),
		officer,
		decides: officer || parts.some((part) => part.coordinates)
	};
}

function placeOf(
	state: ClubState,
	{ type, id }: ThingRef
): { rooms: readonly (ThingId | null)[]; line: ThingId | null } {
	switch (type) {
		case 'room':
			return { rooms: [id], line: null };
		case 'line':
			return { rooms: [], line: id };
		case 'group':
		case 'spawn': {
			const thing = type === 'group' ? state.groups.get(id) : state.spawns.get(id);
			return { rooms: [thing?.room ?? null], line: thing?.line ?? null };
		}
		case 'bag': {
			const bag = state.bags.get(id);
			const to = bag?.to?.to === 'room' ? bag.to.room : null;
			return { rooms: [bag?.fromRoom ?? null, to], line: bag?.line ?? null };
		}
		case 'exchange': {
			const exchange = state.exchanges.get(id);
			const givers = exchange?.gives.map((give) => give.fromRoom) ?? [];
			return { rooms: [...givers, exchange?.toRoom ?? null], line: exchange?.line ?? null };
		}
		default:
			return { rooms: [], line: null };
	}
}
