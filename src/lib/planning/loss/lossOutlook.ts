import { chanceOfLoss } from '../chanceOfLoss.ts';

/** What may be true of a rate: the share of it that lies below, as `learnedRate` gives it. */
interface Rate {
	readonly expected: number;
	readonly quantile: (share: number) => number;
}
export interface LossOutlook {
	/** After year 1, 2, ...: the chance that nobody has the line. */
	readonly expected: readonly number[];
	/** In 19 of 20 cases the chance lies between these, as far as the rates are known. */
	readonly low: readonly number[];
	readonly high: readonly number[];
}

/** Both rates at so many of their quantiles: enough for the ends that are shown. */
const steps = 16;

/**
 * Loss outlook: how likely is it that a line is lost within so many years, and how sure is that?
 *
 * The chance is that of `chanceOfLoss` with the rates as expected. Its range comes from how little is known of the
 * rates: both are taken at evenly spaced quantiles, every pair alike, and the middle 95 of 100 answers kept; the two
 * are taken to hang together in no way.
 * Source: `chanceOfLoss`; the spread of what is learned: Jeffreys, as in `learnedRate`.
 * Cost: steps squared times that of `chanceOfLoss`.
 *
 * @param rooms holders that fail by themselves, and how many there may be at most
 * @param rates how often one loses it, and fills another, in a year
 * @param years whole number, at least 1
 * @returns one for each year
 * @example
 * const sure = { expected: 0.2, quantile: () => 0.2 };
 * const never = { expected: 0, quantile: () => 0 };
 * lossOutlook({ holders: 1, maxHolders: 1, correlation: 0 }, { lost: sure, refilled: never }, 1).high[0] // => 0.2
 */
export function lossOutlook(
	rooms: { readonly holders: number; readonly maxHolders: number; readonly correlation: number },
	rates: { readonly lost: Rate; readonly refilled: Rate },
	years: number
): LossOutlook {
	const at = (lost: number, refilled: number) =>
		chanceOfLoss({ ...rooms, lossPerYear: lost, restockPerHolder: refilled }, years);
	const shares = Array.from({ length: steps }, (_, i) => (i + 0.5) / steps);
	const refills = shares.map((share) => rates.refilled.quantile(share));
	const all = shares.flatMap((share) => {
		const lost = rates.lost.quantile(share);
		return refills.map((refilled) => at(lost, refilled));
	});
	const expected = at(rates.lost.expected, rates.refilled.expected);
	const sorted = expected.map((_, year) => all.map((course) => course[year]!).sort((a, b) => a - b));
	const end = (share: number) => sorted.map((values) => values[Math.round(share * (values.length - 1))]!);
	return {
		expected,
		low: end(0.025).map((value, i) => Math.min(value, expected[i]!)),
		high: end(0.975).map((value, i) => Math.max(value, expected[i]!))
	};
}
