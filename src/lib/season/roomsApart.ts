import type { ThingId } from '#records/entry.ts';
import { officersWords } from '#records/kinds/words/officersWords.ts';
import type { ClubState } from '#records/state.ts';
import type { SeasonAsking } from './seasonAsking.ts';

/**
 * Rooms apart: between which rooms should nothing go, by the private words of officers and coordinators?
 *
 * Known only where those words may be read. All rooms that one of the people keeps are apart from all that another
 * keeps. Never named in a reason.
 *
 * @returns pairs of ids, the smaller one first, in order
 */
export function roomsApart(state: ClubState, asking: SeasonAsking): readonly (readonly [ThingId, ThingId])[] {
	const entries = [...(asking.privateEntries.get('officers')?.values() ?? [])];
	const replaced = new Set(entries.flatMap((entry) => entry.corrects ?? []));
	const pairs = new Map<string, readonly [ThingId, ThingId]>();
	for (const entry of entries) {
		if (entry.kind !== officersWords.kind || replaced.has(entry.id)) continue;
		const read = officersWords.schema.safeParse(entry.body);
		if (!read.success || read.data.sort !== 'not to be paired') continue;
		const kept = read.data.members.map((member) => state.members.get(member)?.rooms ?? []);
		kept.forEach((rooms, i) => {
			for (const one of rooms)
				for (const other of kept.slice(0, i).flat()) {
					const pair = one < other ? ([one, other] as const) : ([other, one] as const);
					if (one !== other) pairs.set(pair.join(' '), pair);
				}
		});
	}
	return [...pairs].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, pair]) => pair);
}
