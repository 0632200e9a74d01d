import { bagNumberOf, highestBagNumber } from './bagNumberOf.ts';
import { checkLetter, checkLetters } from './checkLetter.ts';

export type ReadBagNumber =
	| { readonly number: string; readonly problem: '' }
	/** `problem`: one sentence for a person; `likely`: what the number would be with its right letter, if readable. */
	| { readonly number: null; readonly problem: string; readonly likely: string | null };

const refuse = (problem: string, likely: string | null = null): ReadBagNumber => ({
	number: null,
	problem,
	likely
});

/**
 * Bag number, read: which bag is meant by what somebody typed, or what a scanner read?
 *
 * Takes capitals and small letters, spaces, dots, dashes, the word "bag" or "no." in front, and leaves zeros in front
 * to us. A label's scanned text may hold the address of its page: then its last part is read.
 *
 * @param typed as it came
 * @returns the number as records keep it, or one sentence on what to do
 * @example
 * readBagNumber('417k').number // => '0417K'
 * readBagNumber('Bag 0417 K').number // => '0417K'
 * readBagNumber('0417').problem // => 'The letter is missing: it stands behind the digits on the label.'
 */
export function readBagNumber(typed: string): ReadBagNumber {
	const last = typed.normalize('NFKC').trim().split(/[/#]/).filter(Boolean).at(-1) ?? '';
	const text = last
		.toUpperCase()
		.replace(/^(BAG|NUMBER|NO\b|NR\b)/, '')
		.replace(/[\s.\-_:]/g, '');
	if (text === '') return refuse('Type the number on the label: the digits and the letter.');
	const read = /^(\d+)([A-Z]?)$/.exec(text);
	if (!read) return refuse('A bag number is digits and one letter, like 0417 K. Look at the label again.');
	const [, digits = '', letter = ''] = read;
	const count = Number(digits);
	if (digits.length > 12 || count > highestBagNumber || count < 1)
		return refuse('This number is too long or only zeros. Look at the label again.');
	const right = bagNumberOf(count);
	if (letter === '') return refuse('The letter is missing: it stands behind the digits on the label.', right);
	if (letter !== right.slice(-1)) {
		if (!checkLetters.includes(letter))
			return refuse(`${letter} is never used as the letter of a bag. Look at the label again.`, null);
		return refuse('Digits and letter do not fit together. Look at the label again and type both.', null);
	}
	return { number: right, problem: '' };
}

/** Letter for digits typed so far, to help on the keypad; '' while there is nothing to say. */
export function letterFor(digits: string): string {
	return /^\d{1,8}$/.test(digits) && Number(digits) > 0 ? checkLetter(digits) : '';
}
