/** How related two fish are, in steps that keepers know. */
export interface KinshipWords {
	readonly step: 'closer' | 'siblings' | 'halfSiblings' | 'cousins' | 'distant' | 'none' | 'notKnown';
	readonly words: string;
}

/** Sums of weights end a little beside the fraction that is meant; a screen shows four decimals at most. */
const rounding = 1e-9;

/** Each step begins half-way, as a ratio, to the next one down. */
const steps: readonly (KinshipWords & { readonly from: number })[] = [
	{ from: Math.SQRT2 / 4, step: 'closer', words: 'closer than brother and sister' },
	{ from: Math.SQRT2 / 8, step: 'siblings', words: 'as close as brother and sister' },
	{ from: Math.SQRT2 / 16, step: 'halfSiblings', words: 'as close as half brother and half sister' },
	{ from: Math.SQRT2 / 32, step: 'cousins', words: 'as close as cousins' },
	{ from: rounding, step: 'distant', words: 'further apart than cousins' },
	{ from: 0, step: 'none', words: 'not related as far as we know' }
];

/**
 * Kinship in words: how would a keeper say how related these two fish are?
 *
 * The nearest of 0.25 (full sibs, parent and young), 0.125 (half sibs, grandparent) and 0.0625 (first cousins),
 * by ratio; above and below them two words more. Words lose detail: show the number beside them.
 * Source: values of kinship: Wright (1922), American Naturalist 56:330; the words are our own.
 * Cost: constant.
 *
 * @param kinship 0 to 1; `null` = not known
 * @returns a step for choosing shapes and colours, and the words
 * @throws RangeError when the kinship is outside 0 to 1
 * @example
 * kinshipWords(0.25).words // => 'as close as brother and sister'
 * kinshipWords(0).words // => 'not related as far as we know'
 */
export function kinshipWords(kinship: number | null): KinshipWords {
	if (kinship === null) return { step: 'notKnown', words: 'not known' };
	if (!(kinship >= 0 && kinship <= 1))
		throw new RangeError(`kinshipWords requires a kinship from 0 to 1, got ${kinship}`);
	const { step, words } = steps.find(({ from }) => kinship >= from)!;
	return { step, words };
}
