/** `npm run numbers -- inbreeding`: inbreeding of every fish. */
import * as z from 'zod';
import { inbreeding as inbreedingOfAll } from '#genetics/individuals/inbreeding.ts';
import { fishList, pedigreeOf } from './pedigreeInput.ts';
import { read, type Question } from './question.ts';

const schema = z.strictObject({ fish: fishList });

export const inbreeding: Question = (given) => {
	const form = read(schema, given);
	if ('problems' in form) return form;
	const made = pedigreeOf(form.input.fish);
	if ('problems' in made) return made;
	const F = inbreedingOfAll(made.pedigree);
	return { answer: { inbreeding: Object.fromEntries(made.pedigree.ids.map((id, i) => [id, F[i]!])) } };
};
