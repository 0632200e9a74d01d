import type { UnitId } from './event.ts';
import { inbreedingOf } from './inbreedingOf.ts';
import { kinshipBetween } from './kinshipBetween.ts';
import { kinshipWithin } from './kinshipWithin.ts';
import { kinshipWithSelf } from './kinshipWithSelf.ts';
import type { GroupKinship } from './table.ts';

/** A question about units as plain data; each asks what the function of that name answers. */
export type GroupQuestion =
	| { readonly ask: 'inbreeding' | 'within' | 'withSelf'; readonly units: readonly UnitId[] }
	| { readonly ask: 'between'; readonly these: readonly UnitId[]; readonly those: readonly UnitId[] };

/**
 * Group figure: what is the answer to a question that was written down as data?
 *
 * Calls `inbreedingOf`, `kinshipWithin`, `kinshipWithSelf` or `kinshipBetween`. None of them falls when any
 * kinship in the table rises, which is what bounds rest on.
 * Source: as those functions.
 * Cost: as those functions.
 *
 * @param table from `groupKinship`
 * @param question about units of the table
 * @returns 0 to 1
 * @throws RangeError as those functions
 * @example
 * const wild = groupKinship([{ kind: 'founders', unit: 'wild', count: 4 }]);
 * groupFigure(wild, { ask: 'withSelf', units: ['wild'] }) // => 0.125
 */
export function groupFigure(table: GroupKinship, question: GroupQuestion): number {
	if (question.ask === 'between') return kinshipBetween(table, question.these, question.those);
	if (question.ask === 'inbreeding') return inbreedingOf(table, question.units);
	if (question.ask === 'within') return kinshipWithin(table, question.units);
	return kinshipWithSelf(table, question.units);
}
