import type { Holding } from '#club/lines/holdings.ts';
import { learnedRate, type LearnedRate } from '#planning/loss/learnedRate.ts';
import { lossOutlook, type LossOutlook } from '#planning/loss/lossOutlook.ts';
import type { LossRecord } from './lossRecord.ts';

export interface LineLoss {
	/** Houses that hold the line: rooms of one house count once. */
	readonly houses: number;
	/** Rooms in them. */
	readonly rooms: number;
	readonly record: LossRecord;
	/** The record is too young to learn from: the rate is a guess. */
	readonly isGuess: boolean;
	/** A room's chance to lose the line within a year. */
	readonly rate: { readonly expected: number; readonly low: number; readonly high: number };
	/** No loss is recorded: in 19 of 20 cases the chance is below this. */
	readonly mostIfNone: number | null;
	/** A room's chance to pass it on to another room within a year. */
	readonly refilled: number;
	/** As the club has done so far; no room filled again; in part lost together; one more room; all filled again. */
	readonly goesOn: LossOutlook;
	readonly neverFilled: LossOutlook;
	readonly together: LossOutlook;
	readonly oneMore: LossOutlook;
	readonly alwaysFilled: LossOutlook;
}

const yearsAhead = 20;
/** Fewer years of rooms than this teach nothing. */
const leastYears = 5;
/** A guess where the record is too young: one room in five a year, between 1 in 35 and a half. */
const guess = learnedRate(1, 6.5);
/** How much rooms of different houses fail together, where they do: intra-class correlation. Own choice. */
const correlation = 0.1;
/** Rooms beyond this change no figure that is shown. */
const mostHouses = 12;

/**
 * Line loss: how likely is it that nobody has the line any more within 20 years?
 *
 * @param held rooms that hold the line now
 */
export function lineLoss(held: readonly Holding[], record: LossRecord): LineLoss {
	const houses = new Set(held.map(({ house }) => house)).size;
	const isGuess = record.years < leastYears;
	const lost = isGuess ? guess : learnedRate(record.lost, record.years);
	const refills = learnedRate(record.refilled, isGuess ? 0 : record.years);
	const never = { expected: 0, quantile: () => 0 };
	const always = { expected: 1, quantile: () => 1 };
	const refilled = isGuess || record.refilled === 0 ? never : refills;
	const holders = Math.min(mostHouses, houses);
	const outlook = (more: number, filled: Pick<LearnedRate, 'expected' | 'quantile'>, together = 0) =>
		lossOutlook(
			{ holders: holders + more, maxHolders: holders + more, correlation: together },
			{ lost, refilled: filled },
			yearsAhead
		);
	return {
		...{ houses, rooms: held.length, record, isGuess },
		rate: { expected: lost.expected, low: lost.low, high: lost.high },
		...{ mostIfNone: isGuess ? null : lost.mostIfNone, refilled: refilled.expected },
		goesOn: outlook(0, refilled),
		neverFilled: outlook(0, never),
		together: outlook(0, refilled, correlation),
		oneMore: outlook(1, refilled),
		alwaysFilled: outlook(0, always)
	};
}
