/** The check letter of a bag number. */

/**
 * Eleven letters for the values 0 to 10, chosen to look unlike digits and to sound unlike each other across a noisy
 * hall (our own choice): no I, O, Q, B, S, Z, G or D, and of the letters that rhyme with "bee" and "jay" only T and K.
 */
export const checkLetters = 'FHLMRTKUWXY';

const modulus = 11;
const radix = 2;

/**
 * Check letter: which letter belongs behind these digits, so that a slip in reading or typing them is noticed?
 *
 * The pure system MOD 11-2 of ISO/IEC 7064 with letters for its values: each digit is weighted by 2 raised to its
 * place from the right (the letter's own place is 0) and the sum with the letter must leave 1 modulo 11. No digit 1
 * to 9 times a power of 2 is a multiple of 11, hence every single wrong digit is caught; neighbouring weights differ
 * by a power of 2, hence so is every swap of two neighbours, and, since 2 has order 10 modulo 11, of any two digits
 * of up to ten. Zeros in front do not change the letter.
 * Source: ISO/IEC 7064:2003, MOD 11-2 (also used for ISNI, ISO 27729). Differs from it in: letters instead of 0 to 9
 * and X, since a digit at the end would be read as part of the number.
 * Cost: O(digits).
 *
 * @param digits 1 to 8 digits
 * @returns one letter of `checkLetters`
 * @throws RangeError when there is something other than digits
 * @example
 * checkLetter('0417') // => 'K'
 */
export function checkLetter(digits: string): string {
	if (!/^\d{1,8}$/.test(digits))
		throw new RangeError(`checkLetter requires 1 to 8 digits, got ${JSON.stringify(digits)}`);
	let sum = 0;
	for (const digit of digits) sum = ((sum + Number(digit)) * radix) % modulus;
	return checkLetters.charAt((modulus + 1 - sum) % modulus);
}
