/** A brood or group moved on a stage: eyed, hatched, free-swimming, growing on, sexed. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { said, stageSaid } from '../../said.ts';
import { id, stage } from '../../shapes.ts';

export const groupStageReached = defineKind({
	kind: 'group/stageReached',
	version: 1,
	nature: 'fact',
	audience: 'club',
	schema: z.object({ group: id, room: z.nullable(id), stage }),
	things: (body) => [{ type: 'group', id: body.group }],
	rooms: (body) => (body.room ? [body.room] : []),
	apply: {
		group(group, told) {
			group.stages.push(stageSaid(told, told.body.stage));
			if (told.body.stage === 'ended') group.ended = said(told);
		}
	},
	sentence: (body, names) => `${names.group(body.group)}: ${body.stage}.`
});
