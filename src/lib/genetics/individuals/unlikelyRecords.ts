import type { DatedFishRecord } from './pedigree.ts';

export interface UnlikelyRecord {
	readonly code:
		| 'ownMate' // one fish is mother and father of the same young: ids are the young and the parent
		| 'bothParts' // one fish is the mother of some and the father of others: ids are the fish and one young of each
		| 'wrongSex' // a mother recorded as male, a father recorded as female: ids are the parent and the young
		| 'parentNotOlder' // a parent was born on the day of its young or later: ids are the parent and the young
		| 'parentTooYoung'; // a parent was younger than fish of this kind can breed: ids are the parent and the young
	readonly ids: readonly string[];
}

/** Fish of the quickest kinds kept need longer than this; the real age is a matter of the kind. Common practice. */
const youngestParentDays = 20;

/**
 * Unlikely records: which records of fish can be reckoned with, but can hardly be true?
 *
 * Compares each fish with its recorded parents. Nothing is changed or left out: a fish that changes its sex, or one
 * that is mother and father of its young, is rare, not impossible, and the numbers allow it.
 * Source: none needed; the default least age is our own choice.
 * Cost: O(fish).
 *
 * @param fish records in any order, with sex and day of birth where known
 * @param leastParentDays age, in days, below which fish of this kind do not breed; 20 if not given
 * @returns all that is unlikely, in order of the records of the young, then of `bothParts`; empty when all is well
 * @throws RangeError when the least age is not a number of at least 0
 * @example
 * const old = { id: 'old', mother: null, father: null, sex: 'male' };
 * unlikelyRecords([old, { id: 'fry', mother: 'old', father: null }]) // => [{ code: 'wrongSex', ids: ['old', 'fry'] }]
 */
export function unlikelyRecords(
	fish: readonly DatedFishRecord[],
	leastParentDays = youngestParentDays
): UnlikelyRecord[] {
	if (!(leastParentDays >= 0))
		throw new RangeError(`unlikelyRecords requires a least age of 0 or more days, got ${leastParentDays}`);
	const found: UnlikelyRecord[] = [];
	const records = new Map(fish.map((one) => [one.id, one]));
	const firstYoungOf = { mother: new Map<string, string>(), father: new Map<string, string>() };
	for (const young of fish) {
		if (young.mother !== null && young.mother === young.father)
			found.push({ code: 'ownMate', ids: [young.id, young.mother] });
		for (const part of ['mother', 'father'] as const) {
			const id = young[part];
			if (id === null) continue;
			if (young.mother !== young.father && !firstYoungOf[part].has(id)) firstYoungOf[part].set(id, young.id);
			const parent = records.get(id);
			if (!parent) continue;
			if (parent.sex && parent.sex !== (part === 'mother' ? 'female' : 'male'))
				found.push({ code: 'wrongSex', ids: [id, young.id] });
			const age = (young.born ?? NaN) - (parent.born ?? NaN);
			if (age <= 0) found.push({ code: 'parentNotOlder', ids: [id, young.id] });
			else if (age < leastParentDays) found.push({ code: 'parentTooYoung', ids: [id, young.id] });
		}
	}
	for (const [id, asMother] of firstYoungOf.mother) {
		const asFather = firstYoungOf.father.get(id);
		if (asFather !== undefined) found.push({ code: 'bothParts', ids: [id, asMother, asFather] });
	}
	return found;
}
