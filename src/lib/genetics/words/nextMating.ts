/** Advice on a next mating: never a ban, in a tiny line too close may be the least bad choice. */
export interface NextMating {
	readonly tier: 'fine' | 'ratherClose' | 'tooClose' | 'notKnown';
	readonly words: string;
}

/** First cousins: closer than this is not *fine*. Common practice, no source. */
const ratherCloseFrom = 1 / 16;
/** Half sibs: closer than this is *too close*. Common practice, no source. */
const tooCloseAbove = 1 / 8;
/** Sums of weights end a little beside the fraction that is meant. */
const rounding = 1e-9;

/**
 * Next mating: is it wise to breed these two fish, given how related they are?
 *
 * Fine below 0.0625 (first cousins), rather close from there to 0.125 (half sibs), too close above.
 * Source: common practice, no source.
 * Cost: constant.
 *
 * @param kinship of the two fish, 0 to 1, which is the inbreeding of their young; `null` = not known
 * @returns a tier for choosing shapes and colours, and its word
 * @throws RangeError when the kinship is outside 0 to 1
 * @example
 * nextMating(0.25) // => { tier: 'tooClose', words: 'too close' }
 * nextMating(null) // => { tier: 'notKnown', words: 'not known' }
 */
export function nextMating(kinship: number | null): NextMating {
	if (kinship === null) return { tier: 'notKnown', words: 'not known' };
	if (!(kinship >= 0 && kinship <= 1))
		throw new RangeError(`nextMating requires a kinship from 0 to 1, got ${kinship}`);
	if (kinship < ratherCloseFrom - rounding) return { tier: 'fine', words: 'fine' };
	if (kinship <= tooCloseAbove + rounding) return { tier: 'ratherClose', words: 'rather close' };
	return { tier: 'tooClose', words: 'too close' };
}
