/** A person says: these are one bag. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { id } from '../../shapes.ts';

export const bagJoined = defineKind({
	kind: 'bag/joined',
	version: 1,
	nature: 'fact',
	audience: 'club',
	schema: z.object({ bags: z.array(id).check(z.minLength(2), z.maxLength(8)), meeting: z.nullable(id) }),
	things: (body) => body.bags.map((bag) => ({ type: 'bag' as const, id: bag })),
	meeting: (body) => body.meeting,
	apply: {},
	sentence: (body, names) => `${body.bags.map((bag) => names.bag(bag)).join(' and ')} are one bag.`
});
