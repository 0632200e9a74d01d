/** A member no longer keeps a room. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { id } from '../../shapes.ts';

export const keeperRemoved = defineKind({
	kind: 'club/keeperRemoved',
	version: 1,
	nature: 'server',
	audience: 'club',
	schema: z.object({ room: id, member: id, epoch: id, askedBy: z.nullable(id) }),
	things: (body) => [
		{ type: 'room', id: body.room },
		{ type: 'member', id: body.member }
	],
	apply: {
		room(room, told) {
			room.keepers = room.keepers.filter((keeper) => keeper !== told.body.member);
			room.epoch = told.body.epoch;
			room.keepersBefore.push({ member: told.body.member, until: told.when });
		},
		member(member, told) {
			member.rooms = member.rooms.filter((room) => room !== told.body.room);
		}
	},
	sentence: (body, names) => `${names.member(body.member)} no longer keeps ${names.room(body.room)}.`
});
