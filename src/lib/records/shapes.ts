/** The shapes that bodies share. Strings are well formed and free of NUL; limits keep one entry under 16 kB. */
import { z } from 'zod/mini';

const wellFormed = z.refine<string>(
	(text) => !text.includes('\u0000') && text.isWellFormed(),
	'text with a broken character'
);

/** Id of a thing, member or entry. */
export const id = z.string().check(z.minLength(1), z.maxLength(64), wellFormed);
/** A short text on one line. */
export const shortText = z.string().check(z.maxLength(200), wellFormed);
/** Free words. */
export const longText = z.string().check(z.maxLength(4000), wellFormed);
/** ISO 8601-1 date, or '' = not said. */
export const dateOrNothing = z.string().check(z.regex(/^(\d{4}-\d\d-\d\d)?$/));
/** How many fish: 0 to 99,999. */
export const howMany = z.int().check(z.gte(0), z.lte(99_999));
export const fish = z.object({ males: howMany, females: howMany, unsexed: howMany });
export const certainty = z.enum(['counted', 'about', 'old list']);
export const stage = z.enum([
	'laid',
	'eyed',
	'hatched',
	'free-swimming',
	'growing on',
	'sexed',
	'look known',
	'adult',
	'eggs in peat',
	'ended'
]);
export const parentSet = z.object({
	of: z
		.array(z.object({ group: id, standing: z.enum(['seen', 'likely', 'possible', 'ruled out']) }))
		.check(z.maxLength(60)),
	others: z.boolean(),
	number: z.enum(['one', 'several', 'not known'])
});
export const bagContents = z.array(z.object({ group: z.nullable(id), fish })).check(z.maxLength(20));
export const bagTo = z.discriminatedUnion('to', [
	z.object({ to: z.literal('room'), room: id }),
	z.object({ to: z.literal('guest'), name: shortText }),
	z.object({ to: z.literal('outside'), name: shortText }),
	z.object({ to: z.literal('open') })
]);
/** Digits and one check letter, or '' = no label yet. */
export const bagNumber = z.string().check(z.regex(/^(\d{3,8}[A-Z])?$/));
export const fishGroup = z.enum([
	'bristlenose',
	'guppy',
	'livebearer',
	'goodeid',
	'killifish',
	'annual killifish',
	'rainbowfish',
	'dwarf cichlid',
	'corydoras',
	'other'
]);
