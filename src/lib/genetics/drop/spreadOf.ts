/** Values of one figure over many draws of chance. */
export interface Spread {
	readonly mean: number;
	/** Of the mean: how far it may be from the true mean; 0 for one value. */
	readonly standardError: number;
	/** 95 of 100 values lie between low and high. */
	readonly low: number;
	readonly high: number;
}

/**
 * Spread of values: what is the mean, how sure is it, and where do 95 of 100 values lie?
 *
 * Quantiles 0.025 and 0.975 with straight lines between neighbours.
 * Source: Hyndman & Fan (1996), The American Statistician 50:361, definition 7 (from memory).
 * Cost: O(n log n).
 *
 * @param values one or more numbers in any order
 * @returns mean, its standard error, low and high in the unit of the values
 * @throws RangeError when there are no values
 * @example
 * spreadOf([1, 2, 3]) // => { mean: 2, standardError: Math.sqrt(1 / 3), low: 1.05, high: 2.95 }
 */
export function spreadOf(values: readonly number[]): Spread {
	const n = values.length;
	if (n === 0) throw new RangeError('spreadOf requires at least one value, got none');
	const mean = values.reduce((sum, value) => sum + value, 0) / n;
	const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
	const sorted = [...values].sort((a, b) => a - b);
	const quantile = (share: number) => {
		const place = share * (n - 1);
		const below = Math.floor(place);
		const next = sorted[Math.min(below + 1, n - 1)]!;
		return sorted[below]! + (place - below) * (next - sorted[below]!);
	};
	return {
		mean,
		standardError: n < 2 ? 0 : Math.sqrt(squares / (n - 1) / n),
		low: quantile(0.025),
		high: quantile(0.975)
	};
}
