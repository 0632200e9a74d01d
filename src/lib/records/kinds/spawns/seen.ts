/** A spawn was seen or young were dropped: one entry tells the spawn, its possible parents and the brood. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { countSaid, said, stageSaid } from '../../said.ts';
import { fishText } from '../../fishCount.ts';
import { certainty, fish, id, parentSet, stage } from '../../shapes.ts';

export const spawnSeen = defineKind({
	kind: 'spawn/seen',
	version: 1,
	nature: 'fact',
	audience: 'club',
	schema: z.object({
		spawn: id,
		/** The group that the young are from now on. */
		brood: id,
		line: id,
		room: id,
		/** The breeding group it was seen in; null = not known. */
		inGroup: z.nullable(id),
		sort: z.enum(['spawn', 'drop']),
		mothers: parentSet,
		fathers: parentSet,
		stage,
		/** Eggs or young, as unsexed; 0 with `about` = nobody counted. */
		fish,
		certainty
	}),
	things: (body) => [
		{ type: 'spawn', id: body.spawn },
		{ type: 'group', id: body.brood },
		...(body.inGroup ? [{ type: 'group' as const, id: body.inGroup }] : [])
	],
	places: (body) => [
		[body.spawn, body.room],
		[body.brood, body.room],
		[body.line, body.room]
	],
	line: (body) => body.line,
	apply: {
		spawn(spawn, told) {
			const { brood, line, room, inGroup, sort, mothers, fathers } = told.body;
			Object.assign(spawn, { brood, line, room, inGroup, sort, mothers, fathers });
			spawn.seen = said(told);
			spawn.parentsSaid = said(told);
		},
		group(group, told) {
			const { body } = told;
			if (group.id === body.inGroup) {
				group.spawns.push(body.spawn);
				return;
			}
			group.line = body.line;
			group.room = body.room;
			group.origin = { from: 'brood', spawn: body.spawn };
			group.started = said(told);
			group.stages.push(stageSaid(told, body.stage));
			if (body.fish.males + body.fish.females + body.fish.unsexed > 0) {
				group.counts.push(countSaid(told, body.fish, body.certainty));
			}
		}
	},
	sentence: (body, names) =>
		`${body.sort === 'drop' ? 'A drop' : 'A spawn'} of ${names.line(body.line)} in ${names.room(body.room)}${body.fish.unsexed ? `: ${body.certainty === 'counted' ? '' : 'about '}${fishText(body.fish)}` : ''}.`
});
