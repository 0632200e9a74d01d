/** `npm run numbers -- kinship`: kinship of the pairs asked. */
import * as z from 'zod';
import { inbreeding } from '#genetics/individuals/inbreeding.ts';
import { kinshipOfPairs } from '#genetics/individuals/kinshipOfPairs.ts';
import { fishList, id, pedigreeOf, unknownFish } from './pedigreeInput.ts';
import { read, type Question } from './question.ts';

const pair = z.tuple([id, id], { error: 'a pair must be two ids' });
const schema = z.strictObject({ fish: fishList, pairs: z.array(pair, { error: 'pairs must be a list' }) });

export const kinship: Question = (given) => {
	const form = read(schema, given);
	if ('problems' in form) return form;
	const { fish, pairs } = form.input;
	const made = pedigreeOf(fish);
	if ('problems' in made) return made;
	const { pedigree, place } = made;
	const problems = unknownFish(pairs.flat(), place, 'pairs');
	if (problems.length > 0) return { problems };
	const places = Int32Array.from(pairs.flat(), (one) => place.get(one)!);
	return { answer: { kinship: [...kinshipOfPairs(pedigree, inbreeding(pedigree), places)] } };
};
