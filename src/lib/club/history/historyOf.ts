import type { EntryId, ThingId } from '#records/entry.ts';
import type { ThingType } from '#records/kind.ts';
import { namesOf } from '#records/names.ts';
import type { ClubState } from '#records/state.ts';
import type { Asking } from '../question.ts';
import { isWordOfOthers, needsLook, statement, type Statement } from './statement.ts';
import { thingOf } from './thingOf.ts';

export type HistorySubject = ThingType;
export interface HistoryAsked {
	readonly type: HistorySubject;
	readonly id: ThingId;
	/** At most so many, newest first. */
	readonly limit?: number;
	/** Only what a person has to look at. */
	readonly look?: boolean;
}
export interface History {
	readonly statements: readonly Statement[];
	/** How many there are in all. */
	readonly all: number;
	/** How many of them a person has to look at: doubted, in two versions, or waiting for a tap. */
	readonly look: number;
}

/**
 * History of a thing: what was said, by whom, when did it happen and when was it written, what was corrected, and what
 * does not count and why? In the order of the club's history, newest first. Nothing is ever left out of it.
 */
export function historyOf(state: ClubState, args: HistoryAsked, asking: Asking): History {
	const thing = thingOf(state, args);
	if (!thing) return { statements: [], all: 0, look: 0 };
	const { fold } = asking;
	const names = namesOf(state, fold);
	const ids = new Set(thing.entries);
	if (args.type === 'member') {
		for (const id of fold.ids()) if (fold.entry(id)?.by === args.id) ids.add(id);
	}
	for (const id of tellingOf(state, args)) ids.add(id);
	const all = [...ids]
		.filter((id) => !isWordOfOthers(fold.entry(id)?.kind ?? ''))
		.sort((a, b) => (fold.rankOf(a) < fold.rankOf(b) ? 1 : -1));
	const look = all.filter((id) => needsLook(id, state, fold));
	return {
		all: all.length,
		look: look.length,
		statements: (args.look ? look : all)
			.slice(0, args.limit ?? 200)
			.flatMap((id) => statement(id, state, names, asking) ?? [])
	};
}

/**
 * What a line's and a room's history holds besides the entries that name them: how their groups began and ended, their
 * spawns, their bags.
 */
function tellingOf(state: ClubState, { type, id }: HistoryAsked): EntryId[] {
	if (type !== 'line' && type !== 'room') return [];
	const of = (thing: { line: ThingId | null; room: ThingId | null }) => thing[type] === id;
	const groups = [...state.groups.values()].filter(of).flatMap(({ started, ended }) => [started, ended]);
	const spawns = [...state.spawns.values()].filter(of).map(({ seen }) => seen);
	const bags = [...state.bags.values()]
		.filter((bag) =>
			type === 'line' ? bag.line === id : bag.fromRoom === id || (bag.to?.to === 'room' && bag.to.room === id)
		)
		.flatMap((bag) => [...bag.statements, ...bag.arrivals]);
	return [...groups, ...spawns, ...bags].flatMap((said) => (said ? [said.entry] : []));
}
