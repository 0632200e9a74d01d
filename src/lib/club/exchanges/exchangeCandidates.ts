import {
	relatednessOfYoung,
	type ExcludedWhy,
	type RelatednessCandidate,
	type RelatednessFigure
} from '#pedigree/relatednessOfYoung.ts';
import type { ThingId } from '#records/entry.ts';
import { namesOf } from '#records/names.ts';
import type { ClubState } from '#records/state.ts';
import { partIn } from '../people/partIn.ts';
import type { Asking } from '../question.ts';
import { meetingsAhead, type MeetingChoice } from './meetingsAhead.ts';

export interface CandidateRow extends RelatednessCandidate {
	readonly groupName: string;
	readonly roomName: string;
	readonly region: string;
	readonly sameRegion: boolean;
	/** This group is in an open exchange of these rooms already. */
	readonly asked: boolean;
}
export interface ExchangeCandidates {
	readonly line: {
		readonly id: ThingId;
		readonly name: string;
		readonly code: string;
		readonly movement: string;
	};
	readonly room: { readonly id: ThingId; readonly name: string };
	readonly have: RelatednessFigure | null;
	readonly candidates: readonly CandidateRow[];
	readonly excluded: readonly {
		readonly group: ThingId;
		readonly groupName: string;
		readonly roomName: string;
		readonly why: ExcludedWhy;
		readonly until: number | null;
	}[];
	readonly nothingBetter: boolean;
	readonly roomClosed: boolean;
	readonly complete: boolean;
	readonly meetings: readonly MeetingChoice[];
	/** Coordinator, officer, or keeper of the receiving room: may propose by themselves. */
	readonly mayPropose: boolean;
	/** Rooms that the member keeps: a proposal from these counts as well. */
	readonly myRooms: readonly ThingId[];
}

/**
 * Exchange candidates: whose fish of this line should this room get, and why?
 *
 * @param args.without rooms that said no to this exchange: for a plan B
 */
export function exchangeCandidates(
	state: ClubState,
	args: { readonly line: ThingId; readonly room: ThingId; readonly without?: readonly ThingId[] },
	asking: Asking
): ExchangeCandidates | null {
	const line = state.lines.get(args.line);
	const room = state.rooms.get(args.room);
	if (!line || !room) return null;
	const names = namesOf(state, null);
	const answer = relatednessOfYoung({ state, line: line.id, toRoom: room.id, now: asking.now });
	const open = [...state.exchanges.values()].filter(
		(one) => one.toRoom === room.id && ['proposed', 'asked', 'agreed'].includes(one.stage)
	);
	const part = partIn(state, asking.me, room.id, line.id);
	const left = answer.candidates.filter((one) => !args.without?.includes(one.fromRoom));
	return {
		line: { id: line.id, name: names.line(line.id), code: line.code, movement: line.movement },
		room: { id: room.id, name: names.room(room.id) },
		have: answer.have,
		candidates: left.map((one) => {
			const from = state.rooms.get(one.fromRoom);
			return {
				...one,
				groupName: names.group(one.group),
				roomName: names.room(one.fromRoom),
				region: from?.region ?? '',
				sameRegion: from !== undefined && from.region !== '' && from.region === room.region,
				asked: open.some((exchange) => exchange.gives.some((give) => give.group === one.group))
			};
		}),
		excluded: answer.excluded.map((one) => ({
			...one,
			groupName: names.group(one.group),
			roomName: names.room(one.fromRoom)
		})),
		nothingBetter: answer.nothingBetter,
		roomClosed: answer.roomClosed,
		complete: answer.complete,
		meetings: meetingsAhead(state, asking.now),
		mayPropose: part.any,
		myRooms: state.members.get(asking.me)?.rooms ?? []
	};
}
