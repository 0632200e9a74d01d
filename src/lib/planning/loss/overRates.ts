/** What may be true of a rate: the share of it that lies below, as `learnedRate` gives it. */
export interface Rate {
	readonly expected: number;
	readonly quantile: (share: number) => number;
}
/** A course of figures, one after the other. */
export interface CourseOverRates {
	/** With the rates as expected. */
	readonly expected: readonly number[];
	/** In 19 of 20 cases each figure lies between these, as far as the rates are known. */
	readonly low: readonly number[];
	readonly high: readonly number[];
}

/** Each rate at so many of its quantiles: enough for the ends that are shown. */
const steps = 16;

/**
 * Over rates: what do figures come to, and how sure are they, where the rates behind them are only learned?
 *
 * Rates are taken at evenly spaced quantiles, every combination alike, and the middle 95 of 100 answers kept; the
 * rates are taken to hang together in no way. No end lies on the wrong side of what is expected.
 * Source: own; the spread of what is learned: Jeffreys, as in `learnedRate`.
 * Cost: 16 to the power of the rates, times that of the figures.
 *
 * @param rates one or two
 * @param figures one value of each rate in, a course out, always of one length
 * @example
 * const sure = { expected: 0.2, quantile: () => 0.2 };
 * overRates([sure], (lost) => [lost, 2 * lost]).high // => [0.2, 0.4]
 */
export function overRates(
	rates: readonly Rate[],
	figures: (...values: readonly number[]) => readonly number[]
): CourseOverRates {
	const shares = Array.from({ length: steps }, (_, i) => (i + 0.5) / steps);
	const all = rates
		.reduce<number[][]>(
			(before, { quantile }) => {
				const values = shares.map((share) => quantile(share));
				return before.flatMap((some) => values.map((value) => [...some, value]));
			},
			[[]]
		)
		.map((values) => figures(...values));
	const expected = figures(...rates.map((rate) => rate.expected));
	const sorted = expected.map((_, i) => all.map((course) => course[i]!).sort((a, b) => a - b));
	const end = (share: number) => sorted.map((values) => values[Math.round(share * (values.length - 1))]!);
	return {
		expected,
		low: end(0.025).map((value, i) => Math.min(value, expected[i]!)),
		high: end(0.975).map((value, i) => Math.max(value, expected[i]!))
	};
}
