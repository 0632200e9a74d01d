import type { GroupEvent } from '../groups/event.ts';
import type { GroupQuestion } from '../groups/groupFigure.ts';
import { dropGenes } from './dropGenes.ts';
import { droppedFigure } from './droppedFigure.ts';
import { spreadOf, type Spread } from './spreadOf.ts';

/**
 * Drop figures: by how much may chance have moved these figures away from what is expected?
 *
 * Drops genes many times and gives the spread of every figure: which fish bred, which left and which genes came
 * down. With many places the spread is that of a whole genome, with one that of a single gene. The mean agrees with
 * `groupKinship`; the spread is what the recursion cannot give.
 * Source: MacCluer, VandeBerg, Read & Ryder (1986), Zoo Biology 5:147.
 * Cost: O(drops × fish × places).
 *
 * @param events as for `groupKinship`, and such that they fit
 * @param questions about its units
 * @param by random numbers, how many drops (1,000 if absent), places of the genome (50 if absent: small fish have
 *   some 25 chromosomes, and the two ends of one are nearly unlinked)
 * @returns one spread for each question
 * @throws RangeError as `dropGenes` and `droppedFigure`
 * @example
 * const wild = [{ kind: 'founders', unit: 'wild', count: 4 }];
 * dropFigures(wild, [{ ask: 'inbreeding', units: ['wild'] }], { random: randomFrom(1), drops: 9 })[0].high // => 0
 */
export function dropFigures(
	events: readonly GroupEvent[],
	questions: readonly GroupQuestion[],
	by: { readonly random: () => number; readonly drops?: number; readonly places?: number }
): Spread[] {
	const { random, drops = 1000, places = 50 } = by;
	if (!(drops >= 1)) throw new RangeError(`dropFigures requires at least one drop, got ${drops}`);
	const values: number[][] = questions.map(() => []);
	for (let drop = 0; drop < drops; drop++) {
		const dropped = dropGenes(events, random, places);
		questions.forEach((question, q) => values[q]!.push(droppedFigure(dropped, question)));
	}
	return values.map(spreadOf);
}
