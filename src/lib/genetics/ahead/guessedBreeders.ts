/** Of the males that are there, so many have young. A guess, to be shown as one. */
const shareThatBreeds = 0.3;

/**
 * Guessed breeders: how many males have young in a tank where nobody watched?
 *
 * Three of ten males, but at least one. Colonies of other animals have effective numbers of a tenth to three tenths
 * of what is there.
 * Source: own choice; the order after Frankham (1995), Genetical Research 66:95 (from memory).
 * Cost: constant.
 *
 * @param males fish there, 1 or more
 * @returns effective number of fathers, 1 or more, not always whole
 * @throws RangeError when there are no males
 * @example
 * guessedBreeders(2) // => 1
 * guessedBreeders(10) // => 3
 */
export function guessedBreeders(males: number): number {
	if (!(males >= 1)) throw new RangeError(`guessedBreeders requires at least one male, got ${males}`);
	return Math.max(1, shareThatBreeds * males);
}
