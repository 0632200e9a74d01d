/** The records of single fish that several questions begin with. */
import * as z from 'zod';
import { orderedPedigree } from '#genetics/individuals/orderedPedigree.ts';
import type { FishRecord, Pedigree } from '#genetics/individuals/pedigree.ts';
import { pedigreeProblems, type PedigreeProblem } from '#genetics/individuals/pedigreeProblems.ts';
import { quoted, type Problem } from './question.ts';

export const id = z.string({ error: 'an id must be text' }).min(1, 'an id must not be empty');
const parent = z.union([z.null(), id], { error: 'a parent must be an id, or null when not known' });
const fish = z.strictObject({ id, mother: parent, father: parent });
export const fishList = z.array(fish, { error: 'fish must be a list' });

const sentences: Record<PedigreeProblem['code'], (ids: readonly string[]) => string> = {
	fishTwice: ([fish = '']) => `${quoted(fish)} has more than one record. Keep one.`,
	parentUnknown: ([fish = '']) =>
		`${quoted(fish)} is named as a parent but has no record. Add one with parents null, or write null.`,
	ownAncestor: (ids) =>
		ids.length === 1
			? `${quoted(ids[0]!)} is its own parent. Correct its mother or father.`
			: `${listed(ids)} are ancestors of each other in a circle. Correct a parent of one of them.`
};

/** A circle may be long; all its ids stand in `ids`. */
function listed(ids: readonly string[]): string {
	const shown = ids.slice(0, 5).map(quoted).join(', ');
	return ids.length > 5 ? `${shown} and ${ids.length - 5} more` : shown;
}

export function pedigreeOf(
	records: readonly FishRecord[]
): { readonly pedigree: Pedigree; readonly place: ReadonlyMap<string, number> } | { problems: Problem[] } {
	const problems = pedigreeProblems(records).map(({ code, ids }) => ({
		code,
		ids,
		sentence: sentences[code](ids)
	}));
	if (problems.length > 0) return { problems };
	const pedigree = orderedPedigree(records);
	return { pedigree, place: new Map(pedigree.ids.map((id, i) => [id, i])) };
}

/** One problem for each id that no record has. */
export function unknownFish(
	ids: Iterable<string>,
	place: ReadonlyMap<string, number>,
	where: string
): Problem[] {
	return [...new Set(ids)]
		.filter((id) => !place.has(id))
		.map((id) => ({
			code: 'fishUnknown',
			ids: [id],
			sentence: `${quoted(id)} stands in ${where} but has no record. Add one or take it out.`
		}));
}
