import { lineChance as chanceOf, type LineChance } from '#pedigree/lineChance.ts';
import { lineKinships } from '#pedigree/lineKinships.ts';
import type { ThingId } from '#records/entry.ts';
import type { Question } from '../question.ts';

/** What is needed to play a line's chances, for `aheadByChance` and `genesByChance`; null when it is not heard of. */
export const lineChance: Question<{ readonly line: ThingId }, LineChance | null> = (state, { line: id }) => {
	const line = state.lines.get(id);
	return line ? chanceOf(state, lineKinships.of(state, line.id)) : null;
};
