import { learnedRate, type LearnedRate } from '#planning/loss/learnedRate.ts';
import type { Rate } from '#planning/loss/overRates.ts';
import type { LossRecord } from './lossRecord.ts';

/** How often rooms lose a line, and get it again, as the record tells. */
export interface LineLoss {
	readonly record: LossRecord;
	/** The record is too young to learn from: the rate is a guess. */
	readonly isGuess: boolean;
	/** A room's chance to lose the line within a year. */
	readonly rate: { readonly expected: number; readonly low: number; readonly high: number };
	/** No loss is recorded: in 19 of 20 cases the chance is below this. */
	readonly mostIfNone: number | null;
	/** A room's chance to pass it on to another room within a year. */
	readonly refilled: number;
}

/** Fewer years of rooms than this teach nothing. */
const leastYears = 5;
/** A guess where the record is too young: one room in five a year, between 1 in 35 and a half. */
const guess = learnedRate(1, 6.5);
const never: Rate = { expected: 0, quantile: () => 0 };

/** The rates with all that may be true of them. */
export function ratesOf(record: LossRecord): { readonly lost: LearnedRate; readonly refilled: Rate } {
	if (record.years < leastYears) return { lost: guess, refilled: never };
	return {
		lost: learnedRate(record.lost, record.years),
		refilled: record.refilled === 0 ? never : learnedRate(record.refilled, record.years)
	};
}

/** Line loss: how often does a room of this club lose a line, and how sure is that? */
export function lineLoss(record: LossRecord): LineLoss {
	const { lost, refilled } = ratesOf(record);
	const isGuess = record.years < leastYears;
	return {
		...{ record, isGuess },
		rate: { expected: lost.expected, low: lost.low, high: lost.high },
		...{ mostIfNone: isGuess ? null : lost.mostIfNone, refilled: refilled.expected }
	};
}
