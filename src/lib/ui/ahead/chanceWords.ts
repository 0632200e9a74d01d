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
 * What one more room would do to the chance, and how far that may be off; only what was computed.
 *
 * @param now the chance
 * @param left which share of it one more room leaves
 * @example
 * lessWords(0.2, { expected: 0.5, low: 0.5, high: 0.5 }) // => 'One more room would halve it.'
 */
export function lessWords(
	now: number,
	{ expected: left, low, high }: { readonly expected: number; readonly low: number; readonly high: number }
): string {
	if (now < 0.0005) return 'One more room would change little.';
	const [least, most] = [Math.round(low * 100), Math.round(high * 100)];
	const range =
		least === most ? '.' : `; as far as the record tells, it would leave ${least} to ${most} in 100 of it.`;
	if (left > 0.9) return `One more room would change little${range}`;
	if (left > 0.55) return `One more room would bring it down to ${chanceWords(now * left)}${range}`;
	if (left >= 0.45) return `One more room would halve it${range}`;
	if (left >= 0.29) return `One more room would leave about a third of it${range}`;
	if (left >= 0.22) return `One more room would leave about a quarter of it${range}`;
	return `One more room would leave less than a quarter of it, ${chanceWords(now * left)}${range}`;
}
