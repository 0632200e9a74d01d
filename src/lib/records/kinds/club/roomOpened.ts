/** A fish room joins the club. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { id, shortText } from '../../shapes.ts';

export const roomOpened = defineKind({
	kind: 'club/roomOpened',
	version: 1,
	nature: 'server',
	audience: 'club',
	/** `region` is as fine as a place ever gets; rooms with the same `house` share a heater and count once. */
	schema: z.object({
		room: id,
		name: shortText,
		region: shortText,
		house: shortText,
		askedBy: z.nullable(id)
	}),
	things: (body) => [{ type: 'room', id: body.room }],
	apply: {
		room(room, told) {
			room.name = told.body.name;
			room.region = told.body.region;
			room.house = told.body.house;
		}
	},
	sentence: (body) => `The room ${body.name} joined the club.`
});
