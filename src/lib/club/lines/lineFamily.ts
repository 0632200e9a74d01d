import { familyOf } from '#pedigree/family/familyOf.ts';
import type { Family } from '#pedigree/family/family.ts';
import type { ThingId } from '#records/entry.ts';
import type { Question } from '../question.ts';

export interface LineFamily {
	readonly line: ThingId;
	readonly name: string;
	readonly code: string;
	readonly family: Family;
}

/** A line with all its groups, past ones too, and how their fish came about; null when it is not heard of. */
export const lineFamily: Question<{ line: ThingId }, LineFamily | null> = (state, { line: id }) => {
	const line = state.lines.get(id);
	if (!line) return null;
	return { line: line.id, name: line.name, code: line.code, family: familyOf(state, line.id) };
};
