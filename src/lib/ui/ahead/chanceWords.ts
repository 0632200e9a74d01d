/**
 * A chance as people say it.
 *
 * @param chance 0 to 1
 * @example
 * chanceWords(0.2) // => 'about 20 in 100'
 * chanceWords(0.004) // => 'less than 1 in 100'
 */
export function chanceWords(chance: number): string {
	if (chance < 0.0005) return 'less than 1 in 1,000';
	if (chance < 0.01) return 'less than 1 in 100';
	if (chance >= 0.995) return 'nearly certain';
	return `about ${Math.round(chance * 100)} in 100`;
}

/**
 * What one more room would do to the chance; only what was computed.
 *
 * @example
 * lessWords(0.2, 0.1) // => 'One more room would halve it.'
 */
export function lessWords(now: number, oneMore: number): string {
	if (now < 0.0005) return 'One more room would change little.';
	const left = oneMore / now;
	if (left > 0.9) return 'One more room would change little.';
	if (left > 0.55) return `One more room would bring it down to ${chanceWords(oneMore)}.`;
	if (left >= 0.45) return 'One more room would halve it.';
	if (left >= 0.29) return 'One more room would leave about a third of it.';
	if (left >= 0.22) return 'One more room would leave about a quarter of it.';
	return `One more room would leave less than a quarter of it: ${chanceWords(oneMore)}.`;
}
