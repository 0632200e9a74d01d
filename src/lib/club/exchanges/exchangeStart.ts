import type { ThingId } from '#records/entry.ts';
import { namesOf } from '#records/names.ts';
import type { ClubState } from '#records/state.ts';
import { holdings } from '../lines/holdings.ts';
import { partIn } from '../people/partIn.ts';
import type { Asking } from '../question.ts';

export interface ExchangeStart {
	readonly lines: readonly {
		readonly id: ThingId;
		readonly name: string;
		readonly code: string;
		readonly mine: boolean;
	}[];
	/** Rooms that may receive fish of the picked line: the member's own, those that ask for it, holders, then all. */
	readonly rooms: readonly {
		readonly id: ThingId;
		readonly name: string;
		readonly why: string;
		readonly mine: boolean;
	}[];
}

/** Exchange start: for which line, and for which room, may new blood be looked for? */
export function exchangeStart(
	state: ClubState,
	args: { readonly line: ThingId | null },
	asking: Asking
): ExchangeStart {
	const names = namesOf(state, null);
	const mine = new Set(state.members.get(asking.me)?.rooms ?? []);
	const myLines = new Set(
		[...state.groups.values()].flatMap((group) =>
			group.room && mine.has(group.room) && group.line ? [group.line] : []
		)
	);
	const line = args.line ? state.lines.get(args.line) : undefined;
	const held = new Map(line ? holdings(state, line, asking.now).map((one) => [one.room, one]) : []);
	const rooms = [...state.rooms.values()]
		.filter((room) => room.known)
		.map((room) => {
			const asks = room.wants.some((want) => want.line === args.line && !want.ended);
			const holds = held.get(room.id)?.word;
			const keeps = mine.has(room.id);
			const has = holds === 'holds it' || holds === 'not confirmed' || holds === 'unknown';
			const rank = keeps ? 0 : asks ? 1 : has ? 2 : 3;
			const why = [keeps ? 'your room' : '', asks ? 'asks for it' : has ? 'has it now' : 'does not have it']
				.filter(Boolean)
				.join(', ');
			return {
				id: room.id,
				name: names.room(room.id),
				why: line ? why : keeps ? 'your room' : '',
				mine: keeps,
				rank
			};
		})
		.sort((a, b) => a.rank - b.rank || a.name.localeCompare(b.name));
	return {
		lines: [...state.lines.values()]
			.filter((one) => one.known && one.stateSaid?.state !== 'retired')
			.map((one) => ({
				id: one.id,
				name: names.line(one.id),
				code: one.code,
				mine: myLines.has(one.id) || partIn(state, asking.me, null, one.id).coordinates
			}))
			.sort((a, b) => Number(b.mine) - Number(a.mine) || a.name.localeCompare(b.name)),
		rooms: rooms.map(({ id, name, why, mine: keeps }) => ({ id, name, why, mine: keeps }))
	};
}
