import { describe, expect, test } from 'vitest';
import type { GroupEvent, UnitId } from '#genetics/groups/event.ts';
import { groupFigure, type GroupQuestion } from '#genetics/groups/groupFigure.ts';
import { groupKinship } from '#genetics/groups/groupKinship.ts';
import { broodsToSettle } from '#genetics/parents/broodsToSettle.ts';
import { eventsBehind } from '#genetics/parents/eventsBehind.ts';
import { kinshipRanges } from '#genetics/parents/kinshipRanges.ts';
import { openEvents, type Way } from '#genetics/parents/openEvents.ts';
import { expectClose } from '#tests/helpers/expectClose.ts';
import { randomFrom } from '#genetics/drop/randomFrom.ts';
import { randomClub } from './randomClub.ts';
import { founders, kinshipTolerance, one, several, spawn } from './builders.ts';

const close = (actual: number, expected: number, what?: string) =>
	expectClose(actual, expected, kinshipTolerance, what);

/** Questions of every kind about the units that still hold fish. */
function questionsOf(events: readonly GroupEvent[]): GroupQuestion[] {
	const table = groupKinship(events);
	const units = table.units.filter((_, i) => !table.emptied[i]);
	const half = Math.ceil(units.length / 2);
	const [these, those] = [units.slice(0, half), units.slice(half)];
	const last = units.at(-1)!;
	return [
		...units.map((unit): GroupQuestion => ({ ask: 'inbreeding', units: [unit] })),
		...units.slice(0, -1).map((unit): GroupQuestion => ({ ask: 'between', these: [unit], those: [last] })),
		{ ask: 'between', these, those },
		{ ask: 'within', units },
		{ ask: 'withSelf', units }
	];
}

/** The slow, obvious way: every combination of ways, the whole table each time, guesses at both their ends. */
function allWays(events: readonly GroupEvent[]): GroupEvent[][] {
	let lists: GroupEvent[][] = [[...events], guessesAtLeast(events)];
	for (const { place, ways } of openEvents(events))
		lists = lists.flatMap((list) => ways.map(({ event }) => list.with(place, event)));
	return lists;
}
function guessesAtLeast(events: readonly GroupEvent[]): GroupEvent[] {
	return events.map((event) =>
		event.kind === 'founders' && event.assumed ? { ...event, within: 0, related: [] } : event
	);
}
/** The events if it had been in these ways. */
function inWays(events: readonly GroupEvent[], when: ReadonlyMap<number, Way>): GroupEvent[] {
	const open = openEvents(events);
	const list = [...events];
	for (const [place, { event }] of when) {
		const choice = choiceOf(event);
		const { ways } = open.find((one) => one.place === place)!;
		list[place] = ways.find((way) => choiceOf(way.event).endsWith(choice))!.event;
	}
	return list;
}
/** What an event says of parents or source, whichever of its units are asked about. */
function choiceOf(event: GroupEvent): string {
	if (event.kind === 'spawn') return JSON.stringify([event.fathers.from, event.mothers.from]);
	return event.kind === 'oneOf' ? event.from.map(({ units }) => units[0]).join() : '';
}
const combinations = (events: readonly GroupEvent[]) =>
	openEvents(events).reduce((product, { ways }) => product * ways.length, 1);
/** Random histories with something open, but not too much to try out. */
const histories = Array.from({ length: 60 }, (_, i) => 3001 + i)
	.map((seed) => [seed, randomClub(randomFrom(seed), 14)] as const)
	.filter(([, events]) => combinations(events) > 1 && combinations(events) <= 300);

describe('ranges of random histories', () => {
	test('there are enough of them', () => expect(histories.length).toBeGreaterThan(20));

	test.each(histories)('exact ranges are those of all combinations one by one, seed %i', (_seed, events) => {
		const questions = questionsOf(events);
		const tables = allWays(events).map((list) => groupKinship(list));
		kinshipRanges(events, questions, { mostWork: Infinity }).forEach((range, q) => {
			const values = tables.map((table) => groupFigure(table, questions[q]!));
			expect(range.exact).toBe(true);
			close(range.least, Math.min(...values), `least of ${JSON.stringify(questions[q])}`);
			close(range.greatest, Math.max(...values), `greatest of ${JSON.stringify(questions[q])}`);
			close(range.expected, groupFigure(groupKinship(events), questions[q]!));
			expect(range.least <= range.expected && range.expected <= range.greatest).toBe(true);
			const low = guessesAtLeast(inWays(events, range.leastWhen));
			if (range.leastWhen.size > 0) close(groupFigure(groupKinship(low), questions[q]!), range.least);
			const high = inWays(events, range.greatestWhen);
			if (range.greatestWhen.size > 0) close(groupFigure(groupKinship(high), questions[q]!), range.greatest);
		});
	});

	test.each(histories)(
		'bounds hold the exact range, and are exact where they say so, seed %i',
		(_seed, events) => {
			const questions = questionsOf(events);
			const exact = kinshipRanges(events, questions, { mostWork: Infinity });
			for (const limits of [{ mostCombinations: 0 }, { mostCombinations: 4 }, { mostWork: 3000 }])
				kinshipRanges(events, questions, limits).forEach((bound, q) => {
					expect(bound.least).toBeLessThanOrEqual(exact[q]!.least + 1e-12);
					expect(bound.greatest).toBeGreaterThanOrEqual(exact[q]!.greatest - 1e-12);
					if (!bound.exact) return;
					close(bound.least, exact[q]!.least);
					close(bound.greatest, exact[q]!.greatest);
				});
		}
	);

	test.each(histories)('the events behind units give the same figures, seed %i', (_seed, events) => {
		const table = groupKinship(events);
		for (const question of questionsOf(events)) {
			const units = question.ask === 'between' ? [...question.these, ...question.those] : question.units;
			const fewer = groupKinship(eventsBehind(events, units).events);
			close(groupFigure(fewer, question), groupFigure(table, question), JSON.stringify(question));
		}
	});
});

describe('who the father was', () => {
	const start: GroupEvent[] = [
		...['p', 'q', 'stranger', 'x'].map((unit) => founders(unit)),
		spawn('p', 'q', ['brother', 1], ['sister', 1], ['sister2', 1])
	];
	const open = [
		...start,
		spawn(one(['brother', 0.5], ['stranger', 0.5]), 'sister', ['fry', 4]),
		spawn(one(['brother', 0.9], ['stranger', 0.1]), 'sister2', ['others', 4]),
		spawn(one(['stranger', 0.5], ['x', 0.5]), one([null, 1]), ['apart', 4])
	];

	test('two broods settled together: from 0 to 1/4 each, and more together than one at a time', () => {
		// By hand: full sibs 1/4, strangers 0 (Wright 1922); mean of both broods.
		const [both] = kinshipRanges(open, [{ ask: 'inbreeding', units: ['fry', 'others'] }]);
		close(both!.least, 0);
		close(both!.greatest, 1 / 4);
		close(both!.expected, (1 / 8 + 9 / 40) / 2);
		expect([both!.exact, both!.open]).toEqual([true, [5, 6]]);
	});

	test('a brood that neither side came from does not matter', () => {
		const [one] = kinshipRanges(open, [{ ask: 'inbreeding', units: ['fry'] }]);
		expect(one!.open).toEqual([5]);
		expect([...one!.greatestWhen.keys()]).toEqual([5]);
	});

	test('the brood whose father is in greater doubt is to be settled first', () => {
		// By hand: each brood moves the mean of F by 1/8; settling one narrows 1/4 to 1/8, whichever it was.
		const worth = broodsToSettle(open, { ask: 'inbreeding', units: ['fry', 'others'] });
		expect(worth.map(({ place }) => place)).toEqual([5, 6]);
		for (const { narrows } of worth) close(narrows, 1 / 8);
		const mostly = broodsToSettle(open, { ask: 'between', these: ['fry'], those: ['others'] });
		expect(mostly.length).toBe(2);
		const apart = broodsToSettle(
			open,
			{ ask: 'inbreeding', units: ['fry', 'others'] },
			{ mostCombinations: 0 }
		);
		expect(apart).toEqual(worth);
	});

	test('one unknown father of two broods by name is settled in both at once', () => {
		const him = { ...one(['brother', 0.5], ['stranger', 0.5]), name: 'him' };
		const named = [...start, spawn(him, 'sister', ['a', 4]), spawn('him', 'sister2', ['b', 4])];
		const [apart] = kinshipRanges(named, [{ ask: 'inbreeding', units: ['a', 'b'] }]);
		close(apart!.greatest, 1 / 4);
		close(apart!.least, 0);
		expect(apart!.open).toEqual([5]);
	});

	test('young of a mix: the mix itself may be the least', () => {
		// By hand: one father gives full sibs 1/4; two unrelated fathers, each young its own draw, 3/16.
		const mix = [...start, spawn(several(['stranger', 0.5], ['x', 0.5]), 'p', ['fry', 4])];
		const [range] = kinshipRanges(mix, [{ ask: 'within', units: ['fry'] }]);
		close(range!.least, 3 / 16);
		close(range!.greatest, 1 / 4);
	});

	test('twelve broods of two fathers each are tried one and all', () => {
		const events: GroupEvent[] = [...start];
		const broods: UnitId[] = [];
		for (let i = 0; i < 12; i++) {
			broods.push(`b${i}`);
			events.push(
				spawn(one(['brother', 0.5], ['stranger', 0.5]), i % 2 ? 'sister' : 'sister2', [`b${i}`, 3])
			);
		}
		const [range] = kinshipRanges(events, [{ ask: 'inbreeding', units: broods }]);
		expect(range!.exact).toBe(true);
		expect(range!.greatestWhen.size).toBe(12);
		close(range!.least, 0);
		close(range!.greatest, 1 / 4);
	});

	test('forty broods get a bound, here known to be reached', () => {
		const events: GroupEvent[] = [...start];
		const broods: UnitId[] = [];
		for (let i = 0; i < 40; i++) {
			broods.push(`b${i}`);
			events.push(spawn(one(['brother', 0.5], ['stranger', 0.5]), 'sister', [`b${i}`, 3]));
		}
		const [range] = kinshipRanges(events, [{ ask: 'inbreeding', units: broods }]);
		close(range!.least, 0);
		close(range!.greatest, 1 / 4);
		expect(range!.open.length).toBe(40);
		expect(range!.exact).toBe(true);
	});
});

describe('founders whose kinship is a guess', () => {
	const shop = (over = {}): GroupEvent => ({
		kind: 'founders',
		unit: 'shop',
		count: 8,
		within: 0.25,
		assumed: true,
		...over
	});
	test('range from unrelated to the guess, or to what it could be at most', () => {
		// By hand: two different fish of the shoal are the parents, F of the young is their kinship.
		const events = [shop(), spawn('shop', 'shop', ['fry', 3])];
		const [range] = kinshipRanges(events, [{ ask: 'inbreeding', units: ['fry'] }]);
		expect([range!.least, range!.expected, range!.greatest]).toEqual([0, 0.25, 0.25]);
		expect([range!.exact, range!.assumed]).toEqual([true, ['shop']]);
		const wide = kinshipRanges(
			[shop({ within: 0, atMost: 0.25 }), ...events.slice(1)],
			[{ ask: 'inbreeding', units: ['fry'] }]
		);
		expect([wide[0]!.least, wide[0]!.expected, wide[0]!.greatest]).toEqual([0, 0, 0.25]);
	});
	test('two tanks of one shop', () => {
		const other = shop({ unit: 'more', related: [{ unit: 'shop', kinship: 0.25 }] });
		const [range] = kinshipRanges([shop(), other], [{ ask: 'between', these: ['shop'], those: ['more'] }]);
		expect([range!.least, range!.expected, range!.greatest]).toEqual([0, 0.25, 0.25]);
	});
	test('what was said is not a guess', () => {
		const [range] = kinshipRanges([founders('a', 3, { within: 0.25 })], [{ ask: 'within', units: ['a'] }]);
		expect([range!.least, range!.greatest, range!.assumed]).toEqual([0.25, 0.25, []]);
	});
});
