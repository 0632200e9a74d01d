import { describe, expect, test } from 'vitest';
import { groupKinship } from '#genetics/groups/groupKinship.ts';
import { inbreedingOf } from '#genetics/groups/inbreedingOf.ts';
import { kinshipWithin } from '#genetics/groups/kinshipWithin.ts';
import { rangeOverBroods } from '#genetics/parents/rangeOverBroods.ts';
import { settleBroods } from '#genetics/parents/settleBroods.ts';
import { uncertainBroods } from '#genetics/parents/uncertainBroods.ts';
import { weightsFromStanding, type StandingParent } from '#genetics/parents/weightsFromStanding.ts';
import { expectClose } from '#tests/helpers/expectClose.ts';
import { founders, kinshipTolerance, one, several, spawn } from './builders.ts';

/** `a:seen b:possible c:likely=3` */
const parents = (text: string): StandingParent[] =>
	text
		.split(' ')
		.filter(Boolean)
		.map((word) => {
			const [, unit, standing, weight] = /^(\w+):(\w+)(?:=(.+))?$/.exec(word)!;
			return {
				unit: unit!,
				standing: standing as StandingParent['standing'],
				...(weight !== undefined && { weight: Number(weight) })
			};
		});

describe('weightsFromStanding (the weights are our own choice)', () => {
	test.each<[string, boolean, Record<string, number>]>([
		['a:seen', true, { a: 1 }],
		['a:seen', false, { a: 1 }],
		['a:seen b:ruledOut', false, { a: 1 }],
		['a:seen b:seen', false, { a: 0.5, b: 0.5 }],
		['a:likely', true, { a: 1 }],
		['a:likely b:possible', true, { a: 0.8, b: 0.2 }],
		['a:likely b:likely c:possible d:possible', true, { a: 0.4, b: 0.4, c: 0.1, d: 0.1 }],
		['a:possible b:possible', true, { a: 0.5, b: 0.5 }],
		['a:possible b:possible', false, { a: 0.45, b: 0.45, outside: 0.1 }],
		['a:likely b:possible', false, { a: 0.72, b: 0.18, outside: 0.1 }],
		['a:seen b:possible', true, { a: 0.8, b: 0.2 }],
		['a:seen b:likely c:possible', true, { a: 0.8, b: 0.16, c: 0.04 }],
		['', true, { outside: 1 }],
		['a:ruledOut', true, { outside: 1 }],
		['a:seen=0.6 b:possible=0.4', false, { a: 0.6, b: 0.4 }],
		['a:seen=0.6 b:possible', false, { a: 0.6, outside: 0.4 }],
		['a:likely=3 b:likely=1', false, { a: 0.75, b: 0.25 }],
		['a:likely=0.3 b:likely=0.1', true, { a: 0.75, b: 0.25 }],
		['a:likely=0.5 b:ruledOut=0.5', true, { a: 1 }],
		['a:likely=0', false, { outside: 1 }]
	])('%s, everyone listed: %s', (text, everyoneListed, expected) => {
		const shares = weightsFromStanding(parents(text), everyoneListed);
		expect(shares.map(({ unit }) => unit ?? 'outside')).toEqual(Object.keys(expected));
		shares.forEach(({ unit, weight }) => expectClose(weight, expected[unit ?? 'outside']!, kinshipTolerance));
	});

	test.each(['a:seen=-1', 'a:seen=NaN', 'a:seen=Infinity', 'a:seen a:likely'])('refuses %s', (text) => {
		expect(() => weightsFromStanding(parents(text), true)).toThrow(RangeError);
	});
});

describe('ranges over uncertain broods', () => {
	const events = [
		founders('p'),
		founders('q'),
		founders('stranger'),
		spawn('p', 'q', ['brother', 1], ['sister', 1]),
		spawn(one(['brother', 0.5], ['stranger', 0.5], ['ruledOut', 0]), 'sister', ['fry', 4]),
		spawn(several(['brother', 0.25], [null, 0.75]), one(['sister', 0.5], ['q', 0.5]), ['more', 4])
	];
	events.splice(3, 0, founders('ruledOut'));

	test('uncertainBroods(events) lists the possible parents, not those with weight 0', () => {
		expect(uncertainBroods(events)).toEqual([
			{
				event: 5,
				choices: [
					{ father: 'brother', mother: 'sister' },
					{ father: 'stranger', mother: 'sister' }
				]
			},
			{
				event: 6,
				choices: [
					{ father: 'brother', mother: 'sister' },
					{ father: 'brother', mother: 'q' },
					{ father: null, mother: 'sister' },
					{ father: null, mother: 'q' }
				]
			}
		]);
	});

	test('inbreeding of fry: expected 1/8, from 0 with the stranger to 1/4 with the brother', () => {
		// By hand: full sibs 1/4 (Wright 1922), strangers 0, half of each.
		const broods = uncertainBroods(events).filter(({ event }) => event === 5);
		const range = rangeOverBroods(broods, (settled) =>
			inbreedingOf(groupKinship(settleBroods(events, settled)), ['fry'])
		);
		expectClose(range.expected, 1 / 8, kinshipTolerance);
		expectClose(range.least, 0, kinshipTolerance);
		expectClose(range.greatest, 1 / 4, kinshipTolerance);
		expect(range.leastWhen).toEqual(new Map([[5, { father: 'stranger', mother: 'sister' }]]));
		expect(range.greatestWhen).toEqual(new Map([[5, { father: 'brother', mother: 'sister' }]]));
		expect(range.exact).toBe(true);
	});

	test('with two uncertain broods the range is one brood at a time, and says so', () => {
		const range = rangeOverBroods(uncertainBroods(events), (settled) =>
			inbreedingOf(groupKinship(settleBroods(events, settled)), ['fry', 'more'])
		);
		expect(range.exact).toBe(false);
		// fry alone settled on the brother: (4 x 1/4 + 4 x 1/16)/8; more settled: (4 x 1/8 + 4 x 1/4)/8.
		expectClose(range.greatest, (1 / 8 + 1 / 4) / 2, kinshipTolerance);
		// fry settled on the stranger: (4 x 0 + 4 x 1/16)/8; settling both would reach 0.
		expectClose(range.least, 1 / 32, kinshipTolerance);
	});

	test('a stated mix may lie below every single choice, and then it is the least', () => {
		// By hand: one father gives full sibs 1/4; two unrelated fathers, each young its own draw, 3/16.
		const mix = [
			...['a', 'b', 'd'].map((unit) => founders(unit)),
			spawn(several(['a', 0.5], ['b', 0.5]), 'd', ['fry', 4])
		];
		const range = rangeOverBroods(uncertainBroods(mix), (settled) =>
			kinshipWithin(groupKinship(settleBroods(mix, settled)), ['fry'])
		);
		expectClose(range.least, 3 / 16, kinshipTolerance);
		expectClose(range.greatest, 1 / 4, kinshipTolerance);
		expect(range.leastWhen.size).toBe(0);
	});

	test('settleBroods leaves the events alone and refuses what is not a spawn', () => {
		const before = structuredClone(events);
		const settled = settleBroods(events, new Map([[5, { father: 'stranger', mother: 'sister' }]]));
		expect(events).toEqual(before);
		expect(settled[6]).toBe(events[6]);
		expect(() => settleBroods(events, new Map([[0, { father: null, mother: null }]]))).toThrow(RangeError);
	});

	test('a figure that is not a number is refused', () => {
		expect(() => rangeOverBroods([], () => NaN)).toThrow(RangeError);
	});
});
