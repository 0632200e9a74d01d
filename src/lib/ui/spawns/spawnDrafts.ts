/** What is written about a spawn or drop. */
import type { Draft, ThingId } from '#records/entry.ts';
import type { Fish, ParentSet, Stage } from '#records/state.ts';

export interface NewSpawn {
	readonly spawn: ThingId;
	readonly brood: ThingId;
	readonly line: ThingId;
	readonly room: ThingId;
	readonly inGroup: ThingId | null;
	readonly sort: 'spawn' | 'drop';
	readonly mothers: ParentSet;
	readonly fathers: ParentSet;
	readonly stage: Stage;
	/** No fish with `about` = nobody counted. */
	readonly fish: Fish;
	readonly certainty: 'counted' | 'about';
}

export function spawnSeen(happened: string, body: NewSpawn): Draft {
	return {
		kind: 'spawn/seen',
		happened,
		about: [body.spawn, body.brood, ...(body.inGroup ? [body.inGroup] : [])],
		body
	};
}

export function parentsSaid(
	spawn: ThingId,
	room: ThingId | null,
	happened: string,
	mothers: ParentSet,
	fathers: ParentSet
): Draft {
	return { kind: 'spawn/parentsSaid', happened, about: [spawn], body: { spawn, room, mothers, fathers } };
}
