/** A member keeps a room from now on. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { id } from '../../shapes.ts';

export const keeperAdded = defineKind({
	kind: 'club/keeperAdded',
	version: 1,
	nature: 'server',
	audience: 'club',
	/** `epoch` names the room's private document from now on. */
	schema: z.object({ room: id, member: id, epoch: id, askedBy: z.nullable(id) }),
	things: (body) => [
		{ type: 'room', id: body.room },
		{ type: 'member', id: body.member }
	],
	apply: {
		room(room, told) {
			if (!room.keepers.includes(told.body.member)) room.keepers.push(told.body.member);
			room.epoch = told.body.epoch;
		},
		member(member, told) {
			if (!member.rooms.includes(told.body.room)) member.rooms.push(told.body.room);
		}
	},
	sentence: (body, names) => `${names.member(body.member)} keeps ${names.room(body.room)}.`
});
