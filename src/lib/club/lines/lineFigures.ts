import { lineFigures as figuresOf, type LineFigures as Figures } from '#pedigree/lineFigures.ts';
import { lineKinships } from '#pedigree/lineKinships.ts';
import type { ThingId } from '#records/entry.ts';
import { namesOf } from '#records/names.ts';
import type { Question } from '../question.ts';

export interface LineFigures extends Figures {
	readonly name: string;
	readonly code: string;
}

/** How much variety does a line still have, how did it fall, and what comes next? Null when it is not heard of. */
export const lineFigures: Question<{ readonly line: ThingId }, LineFigures | null> = (
	state,
	{ line: id },
	{ now }
) => {
	const line = state.lines.get(id);
	if (!line) return null;
	const figures = figuresOf(state, line.id, { now, kinship: lineKinships.of(state, line.id) });
	return { ...figures, name: namesOf(state, null).line(line.id), code: line.code };
};
