/** A room's name, region or house is set anew. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { id, shortText } from '../../shapes.ts';

export const roomDescribed = defineKind({
	kind: 'club/roomDescribed',
	version: 1,
	nature: 'server',
	audience: 'club',
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
	sentence: (body) => `The room is now called ${body.name}.`
});
