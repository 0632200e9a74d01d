import { chanceOfLoss } from '../chanceOfLoss.ts';
import { overRates, type CourseOverRates, type Rate } from './overRates.ts';

/** After year 1, 2, ...: the chance that nobody has the line. */
export type LossOutlook = CourseOverRates;

/** Houses that hold the line, as `chanceOfLoss` takes them. */
export interface Holders {
	readonly holders: number;
	readonly maxHolders: number;
	readonly correlation: number;
}

/**
 * Loss outlook: how likely is it that a line is lost within so many years, and how sure is that?
 *
 * The chance is that of `chanceOfLoss` with the rates as expected. Its range comes from how little is known of the
 * rates, as `overRates` spreads them.
 * Source: `chanceOfLoss`; `overRates`.
 * Cost: 256 times that of `chanceOfLoss`.
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
	rooms: Holders,
	rates: { readonly lost: Rate; readonly refilled: Rate },
	years: number
): LossOutlook {
	return overRates([rates.lost, rates.refilled], (lossPerYear, restockPerHolder) =>
		chanceOfLoss({ ...rooms, lossPerYear: lossPerYear!, restockPerHolder: restockPerHolder! }, years)
	);
}
