/**
 * Bag number as people read it: a space before the letter; nothing for a bag without a label.
 *
 * @param number as records keep it, or ''
 * @example
 * bagNumberText('0417K') // => '0417 K'
 */
export function bagNumberText(number: string): string {
	return number ? `${number.slice(0, -1)} ${number.slice(-1)}` : '';
}
