/** `npm run numbers -- diversity`: what the living fish hold of their founders' diversity. */
import * as z from 'zod';
import { founderContributions } from '#genetics/diversity/founderContributions.ts';
import { founderEquivalents } from '#genetics/diversity/founderEquivalents.ts';
import { founderGenomeEquivalents } from '#genetics/diversity/founderGenomeEquivalents.ts';
import { geneDiversity } from '#genetics/diversity/geneDiversity.ts';
import { meanKinships } from '#genetics/diversity/meanKinships.ts';
import { inbreeding } from '#genetics/individuals/inbreeding.ts';
import { fishList, id, pedigreeOf, unknownFish } from './pedigreeInput.ts';
import { quoted, read, type Problem, type Question } from './question.ts';

const living = z.array(id, { error: 'living must be a list of ids' });
const schema = z.strictObject({ fish: fishList, living });

export const diversity: Question = (given) => {
	const form = read(schema, given);
	if ('problems' in form) return form;
	const { fish, living } = form.input;
	const made = pedigreeOf(fish);
	if ('problems' in made) return made;
	const { pedigree, place } = made;
	const problems = [...unknownFish(living, place, 'living'), ...livingProblems(living)];
	if (problems.length > 0) return { problems };

	const places = Int32Array.from(living, (one) => place.get(one)!);
	const { mean, of } = meanKinships(pedigree, inbreeding(pedigree), places);
	const { founders, shares, unknownParents } = founderContributions(pedigree, places);
	return {
		answer: {
			meanKinship: mean,
			meanKinshipOf: Object.fromEntries(living.map((one, i) => [one, of[i]!])),
			geneDiversity: geneDiversity(mean),
			founderGenomeEquivalents: founderGenomeEquivalents(mean),
			founderEquivalents: founderEquivalents([...shares, ...unknownParents]),
			contributions: Object.fromEntries([...founders].map((at, i) => [pedigree.ids[at]!, shares[i]!])),
			unknownParentContribution: unknownParents.reduce((sum, share) => sum + share, 0)
		}
	};
};

function livingProblems(living: readonly string[]): Problem[] {
	if (living.length === 0)
		return [{ code: 'nobodyLives', ids: [], sentence: 'living is empty. Name at least one fish.' }];
	const seen = new Set<string>();
	const twice = new Set(living.filter((one) => seen.size === seen.add(one).size));
	return [...twice].map((one) => ({
		code: 'livingTwice',
		ids: [one],
		sentence: `${quoted(one)} stands in living more than once. Name it once.`
	}));
}
