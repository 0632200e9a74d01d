import { describe, expect, test } from 'vitest';
import type { GroupEvent } from '#genetics/groups/event.ts';
import { groupEventProblems } from '#genetics/groups/groupEventProblems.ts';
import { groupKinship } from '#genetics/groups/groupKinship.ts';
import { inbreedingOf } from '#genetics/groups/inbreedingOf.ts';
import { kinshipBetween } from '#genetics/groups/kinshipBetween.ts';
import { kinshipWithin } from '#genetics/groups/kinshipWithin.ts';
import { kinshipWithSelf } from '#genetics/groups/kinshipWithSelf.ts';
import { founders, merge, one, several, spawn, split } from './builders.ts';

const start = [founders('a', 3), founders('b', 1)];

describe('each way in which events can be wrong has its name', () => {
	const cases: [string, GroupEvent[], string[]][] = [
		['unitTwice', [founders('a')], ['a']],
		['unitTwice', [spawn('a', 'b', ['a', 2])], ['a']],
		['unitUnknown', [split('x', 'nobody', 1)], ['nobody']],
		['unitUnknown', [spawn('nobody', 'a', ['x', 1])], ['nobody']],
		['unitUnknown', [merge('x', 'a', 'nobody')], ['nobody']],
		['unitUnknown', [{ kind: 'count', unit: 'nobody', count: 1 }], ['nobody']],
		[
			'unitUnknown',
			[{ kind: 'founders', unit: 'x', count: 1, related: [{ unit: 'nobody', kinship: 0 }] }],
			['nobody']
		],
		['unitEmptied', [split('x', 'b', 1), split('y', 'b', 1)], ['b']],
		['unitEmptied', [merge('x', 'a', 'b'), merge('y', 'a')], ['a']],
		['countNotWhole', [founders('x', 0)], ['x']],
		['countNotWhole', [founders('x', 2.5)], ['x']],
		['countNotWhole', [{ kind: 'count', unit: 'a', count: NaN }], ['a']],
		['notEnoughFish', [split('x', 'a', 4)], ['a']],
		['nothingNamed', [spawn('a', 'b')], []],
		['nothingNamed', [merge('x')], ['x']],
		['candidateTwice', [spawn(several(['a', 0.5], ['a', 0.5]), 'b', ['x', 1])], ['a', 'a']],
		['candidateTwice', [merge('x', 'a', 'a')], ['a', 'a']],
		['weightsNotOne', [spawn(several(['a', 0.5]), 'b', ['x', 1])], ['a']],
		['weightsNotOne', [spawn(several(['a', NaN]), 'b', ['x', 1])], ['a']],
		['weightsNotOne', [spawn(several(['a', 1.5], [null, -0.5]), 'b', ['x', 1])], ['a']],
		['nameNeedsOne', [spawn({ ...several('a'), name: 'him' }, 'b', ['x', 1])], ['him']],
		['notAShare', [founders('x', 1, { within: 1.1 })], ['x']],
		['notAShare', [founders('x', 1, { inbreeding: -0.1 })], ['x']]
	];
	test.each(cases)('%s %j', (code, events, ids) => {
		const problems = groupEventProblems([...start, ...events]);
		expect(problems).toContainEqual({ code, ids });
		expect(() => groupKinship([...start, ...events])).toThrow(`groupKinship requires`);
		expect(groupEventProblems(events, groupKinship(start))).toEqual(problems);
	});

	test('a single fish cannot be father and mother', () => {
		expect(groupEventProblems([...start, spawn('b', one('b'), ['x', 1])])).toContainEqual({
			code: 'notEnoughFish',
			ids: ['b']
		});
	});

	test('all problems are told, not the first', () => {
		const events = [founders('a'), split('x', 'nobody', 1)];
		expect(groupEventProblems([...start, ...events]).map(({ code }) => code)).toEqual([
			'unitTwice',
			'unitUnknown'
		]);
	});
});

test('parents that have moved on may still have young', () => {
	expect(groupEventProblems([...start, split('x', 'b', 1), spawn('a', 'b', ['late', 5])])).toEqual([]);
	expect(
		groupEventProblems([spawn('a', 'b', ['late', 5])], groupKinship([...start, split('x', 'b', 1)]))
	).toEqual([]);
});

describe('questions that make no sense are refused', () => {
	const table = groupKinship([...start, split('moved', 'b', 1)]);
	test.each([
		['unknown units', () => inbreedingOf(table, ['nobody'])],
		['no units', () => kinshipWithSelf(table, [])],
		['a unit twice', () => kinshipWithSelf(table, ['a', 'a'])],
		['fish counted twice', () => kinshipWithin(table, ['b', 'moved'])],
		['two different fish of one', () => kinshipWithin(table, ['moved'])],
		['one unit on both sides', () => kinshipBetween(table, ['a', 'moved'], ['a'])]
	])('%s', (_name, ask) => expect(ask).toThrow(RangeError));
});
