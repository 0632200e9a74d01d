import { lineKinships } from '#pedigree/lineKinships.ts';
import { pairingAdvice, type PairingAdvice } from '#pedigree/pairingAdvice.ts';
import type { ThingId } from '#records/entry.ts';
import { namesOf } from '#records/names.ts';
import type { Question } from '../question.ts';

export interface PairingInRoom extends PairingAdvice {
	readonly lineName: string;
	readonly roomName: string;
}

/** Which males of this room should breed with which females of the line? Null when line or room is not heard of. */
export const pairingInRoom: Question<
	{ readonly line: ThingId; readonly room: ThingId },
	PairingInRoom | null
> = (state, args, { now }) => {
	const line = state.lines.get(args.line);
	const room = state.rooms.get(args.room);
	if (!line || !room) return null;
	const names = namesOf(state, null);
	const kinship = lineKinships.of(state, line.id);
	const advice = pairingAdvice(state, { line: line.id, room: room.id, now, kinship });
	return { ...advice, lineName: names.line(line.id), roomName: names.room(room.id) };
};
