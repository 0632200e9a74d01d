/**
 * A share as people say it: so many in ten.
 *
 * @param share 0 to 1
 * @example
 * inTen(0.81) // => 'about 8 in 10'
 * inTen(0.97) // => 'nearly all'
 */
export function inTen(share: number): string {
	if (share >= 0.9995) return 'all';
	if (share >= 0.95) return 'nearly all';
	if (share < 0.05) return share <= 0 ? 'none' : 'next to none';
	return `about ${tenths(share)} in 10`;
}

/**
 * The range behind it: " (between 7 and 9)"; '' where both ends are the same in tenths.
 *
 * The lower end is rounded down and the upper one up, so that the words never promise more than the figures printed.
 */
export function rangeInTen(least: number, greatest: number): string {
	// The ends as they are printed: 0.498 stands there as 0.50, and five in ten it is.
	const printed = (share: number) => Math.round(share * 100) / 10;
	const [low, high] = [Math.floor(printed(least)), Math.ceil(printed(greatest))];
	if (high - low < 1 || greatest - least < 0.005) return '';
	return ` (between ${low} and ${high})`;
}

function tenths(share: number): number {
	return Math.min(10, Math.max(1, Math.round(share * 10)));
}

/** How often chance is played: one try in forty lies beyond each end, ten of these. */
export const chanceTimes = 400;

/** "0.81, between 0.72 and 0.88"; without a range where there is none to see. */
export function figureText(
	of: { readonly expected: number; readonly least: number; readonly greatest: number },
	decimals = 2
): string {
	const text = (value: number) => value.toFixed(decimals);
	const [low, high] = [text(of.least), text(of.greatest)];
	return low === high ? text(of.expected) : `${text(of.expected)}, between ${low} and ${high}`;
}
