/** A bag arrived: how many alive, how many dead. The living join a group of the receiver, in quarantine. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { countSaid, said } from '../../said.ts';
import { fishText } from '../../fishCount.ts';
import { certainty, fish, howMany, id } from '../../shapes.ts';

export const bagArrived = defineKind({
	kind: 'bag/arrived',
	version: 1,
	nature: 'fact',
	audience: 'club',
	schema: z.object({
		bag: id,
		room: id,
		/** The group that the fish are from now on. */
		group: id,
		line: z.nullable(id),
		alive: fish,
		dead: howMany,
		certainty,
		tank: z.string().check(z.maxLength(200))
	}),
	things: (body) => [
		{ type: 'bag', id: body.bag },
		{ type: 'group', id: body.group }
	],
	places: (body) => [
		[body.bag, body.room],
		[body.group, body.room],
		...(body.line ? [[body.line, body.room] as const] : [])
	],
	line: (body) => body.line,
	apply: {
		bag(bag, told) {
			const { room, group, line, alive, dead, certainty } = told.body;
			bag.arrivals.push({ ...said(told), bag: told.body.bag, room, group, line, alive, dead, certainty });
		},
		group(group, told) {
			const { body } = told;
			group.room = body.room;
			if (body.line) group.line = body.line;
			group.tank = body.tank;
			group.origin = { from: 'bag', bag: body.bag };
			group.started ??= said(told);
			group.counts.push(countSaid(told, body.alive, body.certainty));
			// 28 days: common practice, no source; longer on any sign (group/quarantineSet).
			group.quarantine = { ...said(told), untilMs: told.when.last + 28 * 86_400_000, reason: 'new arrivals' };
		}
	},
	sentence: (body, names) =>
		`${names.bag(body.bag)} arrived in ${names.room(body.room)}: ${fishText(body.alive)} alive${body.dead ? `, ${body.dead} dead` : ''}.`
});
