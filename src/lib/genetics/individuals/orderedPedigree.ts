import type { FishRecord, Pedigree } from './pedigree.ts';
import { pedigreeProblems, placeParentsFirst } from './pedigreeProblems.ts';

/**
 * Ordered pedigree: records of single fish in any order, made ready for `kinship` and `inbreeding`.
 *
 * Source: Kahn (1962), Communications of the ACM 5:558 (topological sorting; from memory).
 * Cost: O(fish).
 *
 * @param fish records in any order; not changed
 * @returns parents before young
 * @throws RangeError when the records do not fit together; `pedigreeProblems` lists all reasons
 * @example
 * orderedPedigree([{ id: 'fry', mother: 'old', father: null }, { id: 'old', mother: null, father: null }]).ids // => ['old', 'fry']
 */
export function orderedPedigree(fish: readonly FishRecord[]): Pedigree {
	const [problem] = pedigreeProblems(fish);
	if (problem)
		throw new RangeError(
			`orderedPedigree requires records that fit, got ${problem.code} for ${problem.ids.join(', ')}`
		);
	const ids = [...placeParentsFirst(fish)];
	const place = new Map(ids.map((id, i) => [id, i]));
	const mother = new Int32Array(ids.length);
	const father = new Int32Array(ids.length);
	for (const record of fish) {
		const i = place.get(record.id)!;
		mother[i] = record.mother === null ? -1 : place.get(record.mother)!;
		father[i] = record.father === null ? -1 : place.get(record.father)!;
	}
	return { ids, mother, father };
}
