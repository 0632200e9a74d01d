import type { TakeFromBrood } from '#pedigree/pairingAdvice.ts';
import { countWords } from '#season/fishWords.ts';

/** How many young to keep of each brood: the same of all, so that no pair counts more than another. */
export function keepWords(take: readonly TakeFromBrood[]): string {
	const each = take[0]?.each ?? 1;
	return `Of each brood keep ${countWords(each, 'son')} and ${countWords(each, 'daughter')} to breed from.`;
}
