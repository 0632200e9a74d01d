/** Fewer or more fish than before: losses, fish let go or re-homed, fish added. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { said } from '../../said.ts';
import { fishText, noFish, addFish } from '../../fishCount.ts';
import { fish, id, longText } from '../../shapes.ts';

export const groupChanged = defineKind({
	kind: 'group/changed',
	version: 1,
	nature: 'fact',
	audience: 'club',
	/** `fish` is how many; every `why` but `added` takes them away. */
	schema: z.object({
		group: id,
		room: z.nullable(id),
		fish,
		why: z.enum(['died', 'lost', 'rehomed', 'put down', 'let go', 'added']),
		cause: longText
	}),
	things: (body) => [{ type: 'group', id: body.group }],
	rooms: (body) => (body.room ? [body.room] : []),
	apply: {
		group(group, told) {
			const { fish, why, cause } = told.body;
			const change = why === 'added' ? fish : addFish(noFish, fish, -1);
			group.changes.push({ ...said(told), fish: change, why, cause, bag: null, other: null });
		}
	},
	sentence: (body, names) =>
		`${names.group(body.group)}: ${fishText(body.fish)} ${body.why === 'added' ? 'more' : 'fewer'} (${body.why}).`
});
