import { checkLetter } from './checkLetter.ts';

/** Shorter numbers get zeros in front, so that every label of a club's first years has the same length. */
export const fewestDigits = 4;
export const highestBagNumber = 99_999_999;

/**
 * Bag number: the digits with their check letter, as records keep it.
 *
 * @param count 1 to 99,999,999
 * @returns for example `0417K`
 * @throws RangeError outside that
 * @example
 * bagNumberOf(417) // => '0417K'
 */
export function bagNumberOf(count: number): string {
	if (!Number.isInteger(count) || count < 1 || count > highestBagNumber)
		throw new RangeError(`bagNumberOf requires a whole number from 1 to ${highestBagNumber}, got ${count}`);
	const digits = String(count).padStart(fewestDigits, '0');
	return digits + checkLetter(digits);
}
