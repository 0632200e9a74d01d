/** Spare fish of a group are offered, or the offer ends. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { said } from '../../said.ts';
import { fishText, howManyFish } from '../../fishCount.ts';
import { dateOrNothing, fish, id, longText } from '../../shapes.ts';

export const groupSpareOffered = defineKind({
	kind: 'group/spareOffered',
	version: 1,
	nature: 'decision',
	audience: 'club',
	decides: 'room',
	/** No fish = the offer has ended. */
	schema: z.object({ group: id, room: z.nullable(id), fish, until: dateOrNothing, note: longText }),
	things: (body) => [{ type: 'group', id: body.group }],
	rooms: (body) => (body.room ? [body.room] : []),
	apply: {
		group(group, told) {
			const { fish, until, note } = told.body;
			group.spare = howManyFish(fish) > 0 ? { ...said(told), fish, until, note } : null;
		}
	},
	sentence: (body, names) =>
		howManyFish(body.fish) > 0
			? `${names.group(body.group)} has ${fishText(body.fish)} spare.`
			: `No more spare fish from ${names.group(body.group)}.`
});
