import { bagReceiver } from './bagReceiver.ts';
import { dayMs } from '../question.ts';
import type { Bag } from '#records/state.ts';

export type BagNeed =
	| 'two bags with one number'
	| 'said differently'
	| 'not arrived'
	| 'no number'
	| 'receiver not known'
	| 'rest not filled in'
	| 'waits for a tap'
	| 'day-7 count';

/** What a person is needed for, in the order of how much it matters; words for screens stand in needWords. */
const daysToArrive = 3;
const daysToCount = 7;
/** After three weeks without a count nobody asks any more. */
const daysToGiveUp = 21;

/**
 * Needs of a bag: what should a person look at, do or fill in?
 *
 * A bag not arrived after 3 days, and a count due 7 days after arrival: common practice, no source. Bags for people
 * outside the club's rooms have nobody who would report.
 */
export function needsOfBag(bag: Bag, now: number): BagNeed[] {
	const needs: BagNeed[] = [];
	const toRoom = bagReceiver(bag);
	const over = bag.stage === 'failed' || bag.stage === 'given back';
	if (bag.numberClash.length) needs.push('two bags with one number');
	if (bag.differences.length) needs.push('said differently');
	const said = bag.baggedAt?.last ?? bag.handOvers[0]?.when.last ?? null;
	const underWay = bag.stage === 'bagged' || bag.stage === 'handed over' || bag.stage === 'mentioned';
	if (underWay && toRoom && said !== null && now - said > daysToArrive * dayMs) needs.push('not arrived');
	if (!bag.number && !over && underWay) needs.push('no number');
	if (underWay && (!bag.to || bag.to.to === 'open')) needs.push('receiver not known');
	if (!over && (!bag.line || !bag.fromRoom || bag.contents.length === 0)) needs.push('rest not filled in');
	if (bag.leftOut.length) needs.push('waits for a tap');
	const arrived = bag.arrivals.at(-1)?.when.last;
	if (bag.stage === 'arrived' && arrived !== undefined) {
		const days = (now - arrived) / dayMs;
		if (days >= daysToCount && days < daysToGiveUp) needs.push('day-7 count');
	}
	return needs;
}

/** Needs that have to be settled between people, and not only filled in. */
export function toSettle(needs: readonly BagNeed[]): boolean {
	return needs.some(
		(need) =>
			need === 'two bags with one number' ||
			need === 'said differently' ||
			need === 'not arrived' ||
			need === 'waits for a tap'
	);
}
