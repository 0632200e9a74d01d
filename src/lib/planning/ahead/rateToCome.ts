import { rateOfInbreeding } from '#genetics/size/rateOfInbreeding.ts';
import { spreadOf } from '#genetics/drop/spreadOf.ts';

/** By which share of what was left inbreeding goes up in one generation; below 0 where mates become less related. */
export interface RateToCome {
	/** Of the mean inbreeding of all futures. */
	readonly mean: number;
	/** 19 of 20 futures lie between these. */
	readonly low: number;
	readonly high: number;
}

/** Fish as inbred as this have nothing left to lose that could be told from rounding. */
const allInbred = 1 - 1e-9;

/**
 * Rate to come: how fast does inbreeding go up from one generation to the next?
 *
 * The mean is that of the mean inbreeding, as closed forms give it; a mean of the rates of single futures would lie a
 * little above. The ends are those of single futures.
 * Source: as `rateOfInbreeding`.
 * Cost: O(n log n) for n futures.
 *
 * @param before inbreeding in each future at the beginning, 0 to 1
 * @param after the same futures, so many generations later
 * @param generations at least 1
 * @returns null where no future is left, or all fish were fully inbred at the beginning
 * @example
 * rateToCome([0.2, 0.2], [0.36, 0.36], 1).mean // => 0.2
 */
export function rateToCome(
	before: readonly number[],
	after: readonly number[],
	generations: number
): RateToCome | null {
	const rates = before.flatMap((was, i) =>
		was < allInbred ? [rateOfInbreeding(was, Math.min(1, after[i]!), generations)] : []
	);
	if (rates.length === 0) return null;
	const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
	const { low, high } = spreadOf(rates);
	return {
		mean: rateOfInbreeding(mean(before), Math.min(1, mean(after)), generations),
		...{ low, high }
	};
}
