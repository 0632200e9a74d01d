/** Fish go from one group of a room to another, or become a group of their own. */
import type { Draft, MemberId, ThingId } from '#records/entry.ts';
import type { Fish } from '#records/state.ts';
import type { GroupPage } from '#club/groups/groupPage.ts';
import { quarantineSet, stageReached, started } from './groupDrafts.ts';

export type MoveTo =
	| { readonly to: 'group'; readonly group: ThingId }
	| { readonly to: 'new'; readonly group: ThingId; readonly name: string; readonly tank: string };

export interface Move {
	readonly happened: string;
	readonly fish: Fish;
	readonly target: MoveTo;
	/** Nothing is left: the group has ended. */
	readonly ends: boolean;
	/** Last day of the quarantine that comes with them, ISO date; '' = none. */
	readonly quarantine: string;
	/** The keeper for whom an officer sets the quarantine. */
	readonly toldBy?: MemberId | undefined;
}

/**
 * What is written for a move? One entry moves the fish, or starts the new group out of the old one; the end of the
 * old group and the quarantine that they bring are written with it, so that one undo takes back all.
 */
export function moveDrafts(page: Pick<GroupPage, 'id' | 'room' | 'line' | 'stage'>, move: Move): Draft[] {
	const { happened, fish, target } = move;
	if (!page.room || !page.line) return [];
	const room = page.room.id;
	const moved: Draft =
		target.to === 'group'
			? {
					kind: 'group/moved',
					happened,
					about: [page.id, target.group],
					body: { from: page.id, to: target.group, room, fish }
				}
			: started(happened, {
					group: target.group,
					line: page.line.id,
					room,
					name: target.name,
					tank: target.tank,
					origin: { from: 'group', groups: [page.id] },
					fish,
					certainty: 'counted',
					stage: page.stage
				});
	const kept = { id: target.group, room: page.room, line: page.line };
	return [
		moved,
		...(move.ends ? [stageReached(page, happened, 'ended')] : []),
		...(move.quarantine
			? [quarantineSet(kept, happened, move.quarantine, 'with fish from quarantine', move.toldBy)]
			: [])
	];
}
