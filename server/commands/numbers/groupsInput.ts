/** The events of groups and the questions about them, as they are written in the input. */
import * as z from 'zod';
import type { GroupEvent, ParentSide } from '#genetics/groups/event.ts';
import { id } from './pedigreeInput.ts';

const count = z.int({ error: 'a count must be a whole number' });
const share = z.tuple([z.union([z.null(), id]), z.number()], {
	error: 'a candidate must be [id, weight]; the id null is an unknown fish from outside'
});
const side = z.union([id, z.array(share)], {
	error: 'parents must be the id of a group, or a list of [id, weight]'
});
const draw = z.enum(['one', 'several'], { error: 'it must be "one" or "several"' }).optional();
const number = z.number({ error: 'it must be a number' });

const founders = z.strictObject({ founders: id, count, within: number.optional() });
const spawn = z.strictObject({
	spawn: z.strictObject({ fathers: side, father: draw, mothers: side, mother: draw }),
	young: z.array(z.tuple([id, count], { error: 'young must be [id, count]' }))
});
const split = z.strictObject({ split: id, from: id, count });
const merge = z.strictObject({ merge: id, of: z.array(id) });

const units = z.array(id, { error: 'name groups in a list' });
const inbreeding = z.strictObject({ inbreeding: units });
const within = z.strictObject({ within: units });
const withSelf = z.strictObject({ withSelf: units });
const between = z.strictObject({ between: z.tuple([id, id], { error: 'it must be two groups' }) });

/** The first of the forms whose first key the value has, so that what is wrong is told about that form. */
function oneOf<Forms extends Record<string, z.ZodType>>(forms: Forms, what: string) {
	const names = Object.keys(forms);
	return z.unknown().transform((value, context): z.output<Forms[keyof Forms]> => {
		const name = names.find(
			(key) => typeof value === 'object' && value !== null && Object.hasOwn(value, key)
		);
		const result = name === undefined ? undefined : forms[name]!.safeParse(value);
		if (result?.success) return result.data as z.output<Forms[keyof Forms]>;
		if (result)
			for (const issue of result.error.issues) context.issues.push({ ...issue, input: value } as never);
		else context.addIssue({ code: 'custom', message: `${what} must have one of ${names.join(', ')}` });
		return z.NEVER;
	});
}

export const schema = z.strictObject({
	events: z.array(oneOf({ founders, spawn, split, merge }, 'an event'), { error: 'events must be a list' }),
	ask: z.array(oneOf({ inbreeding, within, withSelf, between }, 'what is asked'), {
		error: 'ask must be a list'
	})
});

export type Input = z.output<typeof schema>;
export type Asked = Input['ask'][number];

export function eventOf(given: Input['events'][number]): GroupEvent {
	if ('founders' in given)
		return { kind: 'founders', unit: given.founders, count: given.count, within: given.within ?? 0 };
	if ('split' in given) return { kind: 'split', unit: given.split, from: given.from, count: given.count };
	if ('merge' in given) return { kind: 'merge', unit: given.merge, of: given.of };
	const { fathers, father, mothers, mother } = given.spawn;
	return {
		kind: 'spawn',
		fathers: sideOf(fathers, father),
		mothers: sideOf(mothers, mother),
		young: given.young.map(([unit, count]) => ({ unit, count }))
	};
}

function sideOf(given: z.output<typeof side>, draw: ParentSide['draw'] = 'several'): ParentSide {
	const from =
		typeof given === 'string'
			? [{ unit: given, weight: 1 }]
			: given.map(([unit, weight]) => ({ unit, weight }));
	return { from, draw };
}
