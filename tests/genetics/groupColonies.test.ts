import { describe, expect, test } from 'vitest';
import type { GenerationsEvent, GroupEvent, OneOfEvent } from '#genetics/groups/event.ts';
import { groupEventProblems } from '#genetics/groups/groupEventProblems.ts';
import { groupKinship } from '#genetics/groups/groupKinship.ts';
import { inbreedingOf } from '#genetics/groups/inbreedingOf.ts';
import { kinshipBetween } from '#genetics/groups/kinshipBetween.ts';
import { kinshipWithin } from '#genetics/groups/kinshipWithin.ts';
import { expectClose } from '#tests/helpers/expectClose.ts';
import { founders, kinshipTolerance, merge, several, spawn, split } from './builders.ts';

function close(actual: number, expected: number, what?: string) {
	expectClose(actual, expected, kinshipTolerance, what);
}
const generations = (over: Partial<GenerationsEvent> = {}): GenerationsEvent => ({
	kind: 'generations',
	fathers: ['M'],
	mothers: ['W'],
	males: 2,
	females: 4,
	generations: 1,
	young: [
		{ unit: 'M1', count: 2 },
		{ unit: 'W1', count: 4 }
	],
	...over
});
const colony = [founders('M', 2), founders('W', 4), founders('x')];

describe('a colony that nobody recorded brood by brood', () => {
	test('one generation in which all fish breed is one spawn', () => {
		// Identity: Nm and Nf are then the fish that are there.
		const recorded = groupKinship([...colony, spawn('M', 'W', ['M1', 2], ['W1', 4])]);
		const step = groupKinship([...colony, generations()]);
		expect(step.self).toEqual(recorded.self);
		expect(step.within).toEqual(recorded.within);
		expect(step.between).toEqual(recorded.between);
	});

	test('three generations are three spawns of so many breeders', () => {
		const recorded = groupKinship([
			...colony,
			spawn('M', 'W', ['a', 2], ['b', 4]),
			spawn('a', 'b', ['c', 2], ['d', 4]),
			spawn('c', 'd', ['M1', 2], ['W1', 4])
		]);
		const step = groupKinship([...colony, generations({ generations: 3 })]);
		close(inbreedingOf(step, ['M1']), inbreedingOf(recorded, ['M1']));
		close(kinshipWithin(step, ['M1', 'W1']), kinshipWithin(recorded, ['M1', 'W1']));
		close(kinshipBetween(step, ['M1'], ['M']), kinshipBetween(recorded, ['M1'], ['M']));
	});

	test('the increase of inbreeding settles at 1/(2Ne + 1) or so, Ne = 4NmNf/(Nm+Nf)', () => {
		// Wright 1931, Genetics 16:97: with separate sexes the rate is 1/(2Ne) - O(1/Ne²), here within 1 %.
		const [males, females, many] = [20, 60, 200];
		const after = (count: number) =>
			inbreedingOf(groupKinship([...colony, generations({ males, females, generations: count })]), ['M1']);
		const [before, now] = [1 - after(many), 1 - after(many + 1)];
		const effective = (4 * males * females) / (males + females);
		expectClose(1 - now / before, 1 / (2 * effective + 1), { rel: 0.01 }, 'rate of inbreeding');
	});

	test('kinship with fish outside the colony stays as it was', () => {
		// Own derivation: there is no drift of the mean.
		const table = groupKinship([
			founders('M', 3),
			founders('W', 3),
			spawn('M', 'W', ['out', 4]),
			generations({ generations: 7 })
		]);
		close(
			kinshipBetween(table, ['M1'], ['out']),
			(kinshipBetween(table, ['M'], ['out']) + kinshipBetween(table, ['W'], ['out'])) / 2
		);
	});

	test('a tank of unknown sexes breeds as its halves would', () => {
		const unsexed = groupKinship([
			founders('all', 6),
			generations({
				fathers: ['all'],
				mothers: ['all'],
				males: 2,
				females: 3,
				young: [{ unit: 'y', count: 5 }]
			})
		]);
		close(inbreedingOf(unsexed, ['y']), 0);
		// Wright 1931: 1/8 (1/Nm + 1/Nf).
		close(kinshipWithin(unsexed, ['y']), (1 / 2 + 1 / 3) / 8);
	});
});

describe('fish that came out of one of several tanks', () => {
	const start: GroupEvent[] = [
		...['f', 'm', 'g', 'h'].map((unit) => founders(unit)),
		spawn('f', 'm', ['a', 6], ['aw', 6]),
		spawn('g', 'h', ['b', 6], ['bw', 6])
	];
	const from = (weight: number, ...units: string[]) => ({ units, weight });
	const came: OneOfEvent = {
		kind: 'oneOf',
		units: [
			{ unit: 'males', count: 2 },
			{ unit: 'females', count: 3 }
		],
		from: [from(0.75, 'a', 'aw'), from(0.25, 'b', 'bw')]
	};

	test('all came out of the same tank: brother and sister whichever it was', () => {
		// By hand: 1/4 in either case (Wright 1922), and 3/4 or 1/4 of it with the tanks.
		const table = groupKinship([...start, came]);
		close(kinshipBetween(table, ['males'], ['females']), 1 / 4);
		close(kinshipWithin(table, ['males']), 1 / 4);
		close(kinshipBetween(table, ['males'], ['a']), 3 / 16);
		close(kinshipBetween(table, ['females'], ['b']), 1 / 16);
		close(kinshipBetween(table, ['males'], ['f']), 3 / 16);
	});

	test('with one possible tank it is a split', () => {
		const settled: OneOfEvent = { ...came, from: [from(1, 'a', 'aw')] };
		const table = groupKinship([...start, settled]);
		const sure = groupKinship([...start, split('males', 'a', 2), split('females', 'aw', 3)]);
		for (const other of ['f', 'a', 'b', 'aw', 'females'])
			close(kinshipBetween(table, ['males'], [other]), kinshipBetween(sure, ['males'], [other]), other);
	});
});

describe('shares of use', () => {
	test('one of two males with nine tenths of the young: as if 1/sum c² males bred', () => {
		// Own derivation: sum c² = 0.82; the same as two males by name.
		const known = groupKinship([
			founders('a'),
			founders('b'),
			founders('d'),
			spawn(several(['a', 0.9], ['b', 0.1]), 'd', ['fry', 5])
		]);
		const unknown = groupKinship([
			founders('M', 2),
			founders('d'),
			{
				...spawn('M', 'd', ['fry', 5]),
				fathers: { from: [{ unit: 'M', weight: 1, breeders: 1 / 0.82 }], draw: 'several' }
			}
		]);
		close(kinshipWithin(unknown, ['fry']), kinshipWithin(known, ['fry']));
	});
});

test('a unit of which none are left stands for the fish that it last held, and is in no other', () => {
	const table = groupKinship([founders('a', 4), { kind: 'count', unit: 'a', count: 0 }, founders('b', 2)]);
	expect([table.emptied[0], table.count[0]]).toEqual([true, 4]);
	close(kinshipBetween(groupKinship([spawn('a', 'b', ['late', 1])], table), ['late'], ['a']), 1 / 16);
	expect(groupEventProblems([merge('c', 'a', 'b')], table)).toEqual([{ code: 'unitEmptied', ids: ['a'] }]);
});

describe('each way in which these events can be wrong has its name', () => {
	const cases: [string, GroupEvent, string[]][] = [
		['nothingNamed', generations({ fathers: [] }), []],
		['nothingNamed', generations({ young: [] }), []],
		['candidateTwice', generations({ fathers: ['M', 'M'] }), ['M', 'M']],
		['sidesOverlap', generations({ mothers: ['M', 'W'] }), ['M']],
		['notEnoughFish', generations({ fathers: ['x'], mothers: ['x'] }), ['x']],
		['breedersNotFit', generations({ males: 0.5 }), ['M', 'W']],
		['countNotWhole', generations({ generations: 0 }), ['M1', 'W1']],
		['unitUnknown', generations({ fathers: ['nobody'] }), ['nobody']],
		['unitTwice', generations({ young: [{ unit: 'x', count: 1 }] }), ['x']],
		['nothingNamed', { kind: 'oneOf', units: [], from: [] }, []],
		[
			'unitsNotMatched',
			{ kind: 'oneOf', units: [{ unit: 'y', count: 1 }], from: [{ units: ['M', 'W'], weight: 1 }] },
			['M', 'W']
		],
		[
			'weightsNotOne',
			{ kind: 'oneOf', units: [{ unit: 'y', count: 1 }], from: [{ units: ['M'], weight: 0.4 }] },
			['M']
		],
		['guessNotSaid', { kind: 'founders', unit: 'y', count: 1, atMost: 0.25 }, ['y']],
		['notAShare', { kind: 'founders', unit: 'y', count: 1, assumed: true, atMost: 2 }, ['y']],
		[
			'breedersNotFit',
			{
				...spawn('M', 'W', ['y', 1]),
				fathers: { from: [{ unit: 'M', weight: 1, breeders: 3 }], draw: 'several' }
			},
			['M']
		],
		[
			'breedersNotFit',
			{
				...spawn('M', 'W', ['y', 1]),
				fathers: { from: [{ unit: 'M', weight: 1, breeders: 1 }], draw: 'one' }
			},
			['M']
		]
	];
	test.each(cases)('%s %j', (code, event, ids) => {
		expect(groupEventProblems([...colony, event])).toContainEqual({ code, ids });
	});
});
