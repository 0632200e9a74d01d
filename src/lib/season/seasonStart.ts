import { meetingsAhead } from '#club/exchanges/meetingsAhead.ts';
import { crossRule } from '#club/lines/crossRule.ts';
import { holdings } from '#club/lines/holdings.ts';
import { tanksFree } from '#club/rooms/tanksFree.ts';
import type { ThingId } from '#records/entry.ts';
import { namesOf } from '#records/names.ts';
import type { ClubState, Line, Room } from '#records/state.ts';
import { linesToPlan } from './linesToPlan.ts';
import { roomStops } from './roomStops.ts';
import type { SeasonAsking } from './seasonAsking.ts';
import { tankWords } from './tankWords.ts';

export interface SeasonStart {
	readonly mayPlan: boolean;
	/** A sentence; '' = may plan. */
	readonly whyNot: string;
	readonly lines: readonly {
		readonly id: ThingId;
		readonly name: string;
		readonly code: string;
		/** Coordinates it, or keeps a room that holds it. */
		readonly mine: boolean;
		/** May send every part of a plan for it; others only what their own rooms give or get. */
		readonly sendsAll: boolean;
		/** Rooms that hold it now, and how many ask for it. */
		readonly rooms: number;
		readonly waiting: number;
		/** Lines whose fish may be crossed into it on purpose by this member, each with what to read before. */
		readonly crossFrom: readonly { readonly id: ThingId; readonly caution: string }[];
		/** Lines of the same kind of fish that may not be, each with why. */
		readonly crossNot: readonly { readonly id: ThingId; readonly why: string }[];
	}[];
	readonly meetings: readonly {
		readonly id: ThingId;
		readonly name: string;
		readonly date: string;
		readonly coming: readonly ThingId[];
		readonly notComing: readonly ThingId[];
	}[];
	readonly rooms: readonly {
		readonly id: ThingId;
		readonly name: string;
		readonly region: string;
		readonly house: string;
		/** Lines to plan that it holds or asks for. */
		readonly lines: readonly ThingId[];
		/** Of these, those that it has. */
		readonly holds: readonly ThingId[];
		/** Nothing in or out, and why, as a sentence. */
		readonly closed: boolean;
		readonly why: string;
		/** Tanks free for newcomers as said, less what came since; null = nobody has said, or too long ago. */
		readonly tanksFree: number | null;
		/** Who said so and when, or what is counted with instead, as a sentence. */
		readonly tanks: string;
	}[];
	/** Pairs of regions that are far apart, as officers said. */
	readonly far: readonly (readonly [string, string])[];
	/** Private words of officers and coordinators can be read here, so people not to be paired are kept apart. */
	readonly officersWords: boolean;
}

/** Season start: what can this member plan, for which meeting, with which rooms? */
export function seasonStart(
	state: ClubState,
	_args: Record<string, never>,
	asking: SeasonAsking
): SeasonStart {
	const names = namesOf(state, null);
	const lines = linesToPlan(state, asking.me);
	const stops = roomStops(state, asking.now);
	const tanksSaid = tanksFree(state, asking.now);
	const tanksOf = (room: Room) => {
		const said = tanksSaid(room);
		return { tanksFree: said && said.age !== 'too old' ? said.left : null, tanks: tankWords(said) };
	};
	const rooms = [...state.rooms.values()].filter(({ known }) => known);
	const holders = new Map(
		lines.map(({ line }) => [
			line.id,
			new Set(
				holdings(state, line, asking.now).flatMap(({ room, word }) =>
					word === 'no longer has it' ? [] : [room]
				)
			)
		])
	);
	const asks = (room: Room, line: ThingId) => room.wants.some((want) => want.line === line && !want.ended);
	const crossesInto = (line: Line, sendsAll: boolean) => {
		const others = lines
			.filter((other) => sendsAll && other.sendsAll && other.line !== line)
			.filter((other) => other.line.fishGroup === line.fishGroup)
			.map((other) => ({ id: other.line.id, ...crossRule(other.line, line) }));
		return {
			crossFrom: others.flatMap(({ id, forbidden, caution }) => (forbidden ? [] : [{ id, caution }])),
			crossNot: others.flatMap(({ id, forbidden }) => (forbidden ? [{ id, why: forbidden }] : []))
		};
	};
	return {
		mayPlan: lines.length > 0,
		whyNot: lines.length
			? ''
			: 'There is no line yet that you look after or that your room has. Ask an officer or a coordinator for a plan.',
		lines: lines
			.map(({ line, mine, sendsAll }) => ({
				...{ id: line.id, name: names.line(line.id), code: line.code, mine, sendsAll },
				rooms: holders.get(line.id)!.size,
				waiting: rooms.filter((room) => asks(room, line.id)).length,
				...crossesInto(line, sendsAll)
			}))
			.sort(
				(a, b) => Number(b.mine) - Number(a.mine) || a.name.localeCompare(b.name) || (a.id < b.id ? -1 : 1)
			),
		meetings: meetingsAhead(state, asking.now).map(({ id, name, date, coming }) => ({
			...{ id, name, date, coming: [...coming].sort() },
			notComing: (state.meetings.get(id)?.attending ?? [])
				.filter((said) => !said.coming)
				.map((said) => said.room)
				.sort()
		})),
		rooms: rooms
			.map((room) => ({
				...{ id: room.id, name: names.room(room.id), region: room.region, house: room.house },
				lines: lines.flatMap(({ line }) =>
					holders.get(line.id)!.has(room.id) || asks(room, line.id) ? [line.id] : []
				),
				holds: lines.flatMap(({ line }) => (holders.get(line.id)!.has(room.id) ? [line.id] : [])),
				...{ closed: stops.has(room.id), why: stops.get(room.id) ?? '' },
				...tanksOf(room)
			}))
			.sort((a, b) => a.name.localeCompare(b.name) || (a.id < b.id ? -1 : 1)),
		far: state.club.far.map(({ one, other }) => [one, other] as const).sort(),
		officersWords: asking.privateEntries.has('officers')
	};
}
