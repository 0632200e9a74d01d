import type { ThingId } from '#records/entry.ts';
import { addFish, noFish } from '#records/fishCount.ts';
import type { ClubState, Exchange, ExchangeStage, Fish } from '#records/state.ts';
import { dayOfMeeting } from '../meetings/meetingNow.ts';
import { dayMs } from '../question.ts';

export type ExchangeWord = ExchangeStage | 'lapsed' | 'settled, no report';
export type ExchangeNeed = 'promised twice' | 'not arrived' | 'meeting called off' | 'the day has come';

export interface ExchangeNow {
	readonly word: ExchangeWord;
	/** What a person should look at; nothing is refused because of it. */
	readonly needs: readonly ExchangeNeed[];
	/** Can still come to something: nobody declined it, called it off or let it go by. */
	readonly open: boolean;
	/** ISO date of "put off until"; '' otherwise. */
	readonly until: string;
}

const daysToArrive = 3;
const daysToReport = 21;
const beforeBagged: readonly ExchangeWord[] = ['proposed', 'asked', 'agreed', 'put off'];

/**
 * Exchange stage: how far has an exchange come by now?
 *
 * The state's own stage, and what the passing of time does to it: lapsed when its meeting went by before anything was
 * bagged (not while it is put off to a later day), settled without a report 21 days after arrival. A bag that has not
 * arrived after 3 days needs a look. Common practice, no source. Fish promised in two open exchanges, more of them
 * than the group has, are "promised twice" in both; nothing is refused.
 *
 * @param now ms since 1970
 */
export function exchangeStage(state: ClubState, exchange: Exchange, now: number): ExchangeNow {
	const base = byTime(state, exchange, now);
	const needs: ExchangeNeed[] = [];
	if (beforeBagged.includes(base.word)) {
		const meeting = exchange.meeting ? state.meetings.get(exchange.meeting) : undefined;
		if (meeting?.calledOff) needs.push('meeting called off');
		if (base.word === 'put off' && base.until && endOf(base.until) < now) needs.push('the day has come');
		if (promisedTwice(state, exchange, now)) needs.push('promised twice');
	}
	if (base.word === 'bagged' || base.word === 'handed over') {
		const first = Math.min(...exchange.bags.flatMap((id) => state.bags.get(id)?.baggedAt?.last ?? []));
		if (now - first > daysToArrive * dayMs) needs.push('not arrived');
	}
	const open =
		beforeBagged.includes(base.word) ||
		base.word === 'bagged' ||
		base.word === 'handed over' ||
		base.word === 'arrived';
	return { ...base, needs, open };
}

function byTime(state: ClubState, exchange: Exchange, now: number): { word: ExchangeWord; until: string } {
	const { stage } = exchange;
	if (stage === 'arrived') {
		const arrivals = exchange.bags.flatMap((id) => state.bags.get(id)?.arrivals ?? []);
		const last = Math.max(...arrivals.map((one) => one.when.last));
		return { word: now - last >= daysToReport * dayMs ? 'settled, no report' : 'arrived', until: '' };
	}
	if (!beforeBagged.includes(stage)) return { word: stage, until: '' };
	const until =
		stage === 'put off'
			? latest(exchange.answers.map((answer) => (answer.answer === 'later' ? answer.until : '')))
			: '';
	const meeting = exchange.meeting ? state.meetings.get(exchange.meeting) : undefined;
	const day = meeting ? dayOfMeeting(state, meeting) : null;
	const gone = day !== null && now > day.last && !meeting?.calledOff;
	if (gone && !(until && endOf(until) > (day?.last ?? 0))) return { word: 'lapsed', until: '' };
	return { word: stage, until };
}

function latest(dates: readonly string[]): string {
	return dates.reduce((last, date) => (date > last ? date : last), '');
}

function endOf(date: string): number {
	return Date.parse(`${date}T23:59:59Z`);
}

/** Whether open exchanges promise more of a group of this one than it has. */
function promisedTwice(state: ClubState, exchange: Exchange, now: number): boolean {
	return exchange.gives.some(({ group }) => {
		if (!group) return false;
		const there = state.groups.get(group);
		const promised = [...state.exchanges.values()].filter(
			(one) =>
				one.gives.some((give) => give.group === group) && beforeBagged.includes(byTime(state, one, now).word)
		);
		if (promised.length < 2 || !there || there.now.certainty === 'not known') return promised.length >= 2;
		return moreThan(sumOf(promised, group), there.now.fish);
	});
}

function sumOf(exchanges: readonly Exchange[], group: ThingId): Fish {
	const gives = exchanges.flatMap((one) => one.gives.filter((give) => give.group === group));
	return gives.reduce((sum, give) => addFish(sum, give.fish), noFish);
}

/** Fish not sexed may turn out to be either. */
function moreThan(promised: Fish, there: Fish): boolean {
	const all = (fish: Fish) => fish.males + fish.females + fish.unsexed;
	return (
		all(promised) > all(there) ||
		promised.males > there.males + there.unsexed ||
		promised.females > there.females + there.unsexed
	);
}
