import betaQuantile from '@stdlib/stats-base-dists-beta-quantile';

/** A chance within a year, learned from what happened. All between 0 and 1. */
export interface LearnedRate {
	/** (events + 1/2) / (years + 1). */
	readonly expected: number;
	/** In 19 of 20 such records the true chance lies between these. */
	readonly low: number;
	readonly high: number;
	/** Where nothing has happened yet: the greatest chance that fits that, in 19 of 20 cases; null = something has. */
	readonly mostIfNone: number | null;
	/** The chance that this share of what fits the record lies below. */
	readonly quantile: (share: number) => number;
}

/**
 * Learned rate: how likely is it in a year, after so many times in so many years?
 *
 * Each year that one room had the line counts as one try. The answer is the beta distribution with half an event and
 * half a non-event added; exact for whole years, and parts of years are taken as they are. With no event at all the
 * upper end is the rule of three, 1 at most.
 * Source: Jeffreys interval: Brown, Cai & DasGupta 2001, Statistical Science 16:101; rule of three: Hanley &
 * Lippman-Hand 1983, JAMA 249:1743.
 * Cost: constant.
 *
 * @param events how often it happened, a whole number from 0
 * @param years how many years of rooms were watched, 0 or more; need not be whole
 * @returns with 0 years: anything may be true
 * @throws RangeError when a number is below 0
 * @example
 * learnedRate(0, 20).mostIfNone // => 0.15
 * learnedRate(2, 19).expected // => 0.125
 */
export function learnedRate(events: number, years: number): LearnedRate {
	if (!(Number.isSafeInteger(events) && events >= 0 && years >= 0 && Number.isFinite(years)))
		throw new RangeError(`learnedRate requires counts from 0, got ${events} in ${years} years`);
	// A room watched for a part of a year may lose it in that part: each event is at least one try.
	const tries = Math.max(years, events);
	const [a, b] = [events + 0.5, tries - events + 0.5];
	const quantile = (share: number) => betaQuantile(share, a, b);
	return {
		expected: a / (tries + 1),
		low: events === 0 ? 0 : quantile(0.025),
		high: quantile(0.975),
		mostIfNone: events === 0 ? Math.min(1, tries > 0 ? 3 / tries : 1) : null,
		quantile
	};
}
