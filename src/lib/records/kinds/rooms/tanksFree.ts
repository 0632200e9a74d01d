/** How many tanks of a room are free for newcomers: each bag that comes stands in one by itself at first. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { said } from '../../said.ts';
import { id } from '../../shapes.ts';

export const roomTanksFree = defineKind({
	kind: 'room/tanksFree',
	version: 1,
	nature: 'fact',
	audience: 'club',
	/** `line`: for whose swaps it was asked, so that whoever looks after the line may say what a keeper told; or null. */
	schema: z.object({ room: id, line: z.nullable(id), tanks: z.int().check(z.gte(0), z.lte(999)) }),
	things: (body) => [
		{ type: 'room', id: body.room },
		...(body.line ? [{ type: 'line' as const, id: body.line }] : [])
	],
	rooms: (body) => [body.room],
	line: (body) => body.line,
	apply: {
		room(room, told) {
			// The word about the latest time stands, whenever it was written.
			if (room.tanksFree && told.when.last < room.tanksFree.when.last) return;
			room.tanksFree = { ...said(told), tanks: told.body.tanks };
		}
	},
	sentence: ({ room, tanks }, names) =>
		`${names.room(room)} has ${tanks === 0 ? 'no tanks' : tanks === 1 ? '1 tank' : `${tanks} tanks`} free for newcomers.`
});
