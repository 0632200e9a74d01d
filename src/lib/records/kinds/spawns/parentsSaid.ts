/** What is known of a brood's parents is set anew: seen, likely, possible, ruled out. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { said } from '../../said.ts';
import { id, parentSet } from '../../shapes.ts';

export const spawnParentsSaid = defineKind({
	kind: 'spawn/parentsSaid',
	version: 1,
	nature: 'fact',
	audience: 'club',
	schema: z.object({ spawn: id, room: z.nullable(id), mothers: parentSet, fathers: parentSet }),
	things: (body) => [{ type: 'spawn', id: body.spawn }],
	rooms: (body) => (body.room ? [body.room] : []),
	apply: {
		spawn(spawn, told) {
			spawn.mothers = told.body.mothers;
			spawn.fathers = told.body.fathers;
			spawn.parentsSaid = said(told);
		}
	},
	sentence: (body) => {
		const fathers = body.fathers.of.filter((parent) => parent.standing !== 'ruled out').length;
		return `Possible fathers: ${fathers || 'not known'}${body.fathers.others ? ', perhaps others' : ''}.`;
	}
});
