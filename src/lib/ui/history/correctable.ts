/** What can be put right in a statement by saying it anew, without writing all of it again. */
import { kinds } from '#records/kinds.ts';
import type { Fish } from '#records/state.ts';
import type { Statement } from '#club/history/statement.ts';

/** Kinds whose body holds one number of fish. */
const withFish = new Set([
	'group/counted',
	'group/changed',
	'group/moved',
	'group/started',
	'group/spareOffered',
	'spawn/seen'
]);
/** Kinds that say something of one group, which may have been the wrong one. */
const withGroup = new Set([
	'group/counted',
	'group/changed',
	'group/stageReached',
	'group/mixed',
	'group/named',
	'group/eggsStored'
]);

/** The number that somebody wrote, if the statement says a single one. */
export function numberIn(statement: Statement): Fish | null {
	return withFish.has(statement.kind) ? (statement.body as { fish: Fish }).fish : null;
}

/** The group spoken of and its room, if another group can be put in its place. */
export function groupIn(statement: Statement): { readonly group: string; readonly room: string } | null {
	const { group, room } = (statement.body ?? {}) as { group?: unknown; room?: unknown };
	return withGroup.has(statement.kind) && typeof group === 'string' && typeof room === 'string'
		? { group, room }
		: null;
}

/** A fact has a day on which it happened; a decision counts from when it was taken. */
export function hasDay(statement: Statement): boolean {
	return kinds.get(statement.kind)?.nature === 'fact';
}
