import { chanceOfLoss } from '../chanceOfLoss.ts';
import type { Holders } from './lossOutlook.ts';
import { overRates, type Rate } from './overRates.ts';

/** What is left of a chance: 1 all of it, 0.5 half. In 19 of 20 cases between low and high. */
export interface LeftOfChance {
	readonly expected: number;
	readonly low: number;
	readonly high: number;
}

/**
 * One more room: what would be left of the chance that the line is lost, if one more house held it?
 *
 * The two chances are compared rate by rate, so that the range is that of their quotient: a record that makes both
 * unsure leaves it surer than either.
 * Source: `chanceOfLoss`; `overRates`.
 * Cost: 512 times that of `chanceOfLoss`.
 *
 * @param rooms as they are now
 * @param rates how often one loses it, and fills another, in a year
 * @param years within which it may be lost, at least 1
 * @returns 1 where there is no chance that it is lost
 * @example
 * const [sure, never] = [0.2, 0].map((rate) => ({ expected: rate, quantile: () => rate }));
 * oneMoreRoom({ holders: 1, maxHolders: 1, correlation: 0 }, { lost: sure, refilled: never }, 1).expected // => 0.2
 */
export function oneMoreRoom(
	rooms: Holders,
	rates: { readonly lost: Rate; readonly refilled: Rate },
	years: number
): LeftOfChance {
	const left = overRates([rates.lost, rates.refilled], (lost, refilled) => {
		const chance = (more: number) =>
			chanceOfLoss(
				{
					...{ holders: rooms.holders + more, maxHolders: rooms.maxHolders + more },
					...{ correlation: rooms.correlation, lossPerYear: lost!, restockPerHolder: refilled! }
				},
				years
			)[years - 1]!;
		const now = chance(0);
		return [now > 0 ? chance(1) / now : 1];
	});
	return { expected: left.expected[0]!, low: left.low[0]!, high: left.high[0]! };
}
