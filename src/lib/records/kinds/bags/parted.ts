/** A person says: these are different bags, though they carry one number. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { id } from '../../shapes.ts';

export const bagParted = defineKind({
	kind: 'bag/parted',
	version: 1,
	nature: 'fact',
	audience: 'club',
	schema: z.object({ bags: z.array(id).check(z.minLength(2), z.maxLength(8)), meeting: z.nullable(id) }),
	things: (body) => body.bags.map((bag) => ({ type: 'bag' as const, id: bag })),
	meeting: (body) => body.meeting,
	apply: {},
	sentence: (body) => `${body.bags.length} different bags carry one number.`
});
