import { describe, expect, test } from 'vitest';
import { inbreeding } from '#genetics/individuals/inbreeding.ts';
import { kinship } from '#genetics/individuals/kinship.ts';
import { orderedPedigree } from '#genetics/individuals/orderedPedigree.ts';
import type { FishRecord } from '#genetics/individuals/pedigree.ts';
import { pedigreeProblems } from '#genetics/individuals/pedigreeProblems.ts';
import { unlikelyRecords } from '#genetics/individuals/unlikelyRecords.ts';
import { expectClose } from '#tests/helpers/expectClose.ts';
import { kinshipTolerance } from './builders.ts';

const fish = (id: string, father: string | null = null, mother: string | null = null): FishRecord => ({
	id,
	mother,
	father
});

test('kinship(pedigree) gives the textbook relationships of six animals', () => {
	// Henderson 1976, Biometrics 32:69 = Mrode 2005, chapter 2; the matrix recomputed. Relationship = 2 x kinship.
	const pedigree = orderedPedigree([
		fish('1'),
		fish('2'),
		fish('3', '1', '2'),
		fish('4', '1'),
		fish('5', '4', '3'),
		fish('6', '5', '2')
	]);
	const table = kinship(pedigree);
	const relationship = (a: string, b: string) =>
		2 * table[pedigree.ids.indexOf(a) * pedigree.ids.length + pedigree.ids.indexOf(b)]!;
	expectClose(relationship('1', '6'), 0.25, kinshipTolerance);
	expectClose(relationship('2', '6'), 0.625, kinshipTolerance);
	expectClose(relationship('3', '6'), 0.5625, kinshipTolerance);
	expectClose(relationship('4', '6'), 0.3125, kinshipTolerance);
	expectClose(relationship('5', '6'), 0.6875, kinshipTolerance);
	expectClose(relationship('5', '4'), 0.625, kinshipTolerance);
	const F = inbreeding(pedigree);
	for (const id of ['5', '6']) expectClose(F[pedigree.ids.indexOf(id)]!, 0.125, kinshipTolerance);
});

test('a fish that is father and mother of its young: F = 1 - (1/2)^t', () => {
	// Selfing (from memory), as some killifish do.
	const line = [fish('0'), ...[1, 2, 3, 4, 5].map((t) => fish(`${t}`, `${t - 1}`, `${t - 1}`))];
	const F = inbreeding(orderedPedigree(line));
	F.forEach((value, t) => expectClose(value, 1 - 0.5 ** t, kinshipTolerance));
});

test('orderedPedigree(fish) does not require parents before young', () => {
	const records = [fish('c', 'a', 'b'), fish('d', 'c', 'a'), fish('b'), fish('a')];
	const pedigree = orderedPedigree(records);
	const forwards = orderedPedigree([...records].reverse());
	expect([...pedigree.ids].sort()).toEqual(['a', 'b', 'c', 'd']);
	expectClose(inbreeding(pedigree)[pedigree.ids.indexOf('d')]!, 0.25, kinshipTolerance);
	expectClose(inbreeding(forwards)[forwards.ids.indexOf('d')]!, 0.25, kinshipTolerance);
});

describe('each way in which records can be wrong has its name', () => {
	test.each([
		['fishTwice', [fish('a'), fish('a')], ['a']],
		['parentUnknown', [fish('a', 'nobody')], ['nobody']],
		['ownAncestor', [fish('a', 'b'), fish('b', null, 'a'), fish('c', 'b')], ['a', 'b']]
	])('%s', (code, records, ids) => {
		expect(pedigreeProblems(records)).toEqual([{ code, ids }]);
		expect(() => orderedPedigree(records)).toThrow(code);
	});
});

test('kinship and inbreeding refuse young before their parents', () => {
	const wrong = { ids: ['young', 'old'], mother: Int32Array.of(1, -1), father: Int32Array.of(-1, -1) };
	expect(() => kinship(wrong)).toThrow(RangeError);
	expect(() => inbreeding(wrong)).toThrow(RangeError);
});

test('pedigreeProblems(fish) lists all problems, each circle by itself, and not who hangs on a circle', () => {
	const records = [
		fish('a', 'b', 'nobody'),
		fish('b', 'c'),
		fish('c', 'a', 'self'),
		fish('young of a', 'a', 'noone'),
		fish('self', 'self', 'twice'),
		fish('twice'),
		fish('twice', 'nobody'),
		fish('x', null, 'y'),
		fish('y', 'x')
	];
	expect(pedigreeProblems(records)).toEqual([
		{ code: 'fishTwice', ids: ['twice'] },
		{ code: 'parentUnknown', ids: ['nobody'] },
		{ code: 'parentUnknown', ids: ['noone'] },
		{ code: 'ownAncestor', ids: ['a', 'b', 'c'] },
		{ code: 'ownAncestor', ids: ['self'] },
		{ code: 'ownAncestor', ids: ['x', 'y'] }
	]);
});

test('a line of descent of 50,000 generations, youngest first, is no danger', () => {
	const long = Array.from({ length: 50_000 }, (_, i) => fish(`${i}`, i === 49_999 ? null : `${i + 1}`));
	expect(pedigreeProblems(long)).toEqual([]);
	expect(orderedPedigree(long).ids[0]).toBe('49999');
	expect(inbreeding(orderedPedigree(long)).every((F) => F === 0)).toBe(true);
	const closed = [...long.slice(0, -1), fish('49999', '0')];
	expect(pedigreeProblems(closed)).toMatchObject([{ code: 'ownAncestor' }]);
});

test('orderedPedigree(fish) leaves records that fit in their order', () => {
	const records = [
		fish('late founder'),
		fish('a'),
		fish('b', 'a'),
		fish('founder'),
		fish('c', 'b', 'founder')
	];
	expect(orderedPedigree(records).ids).toEqual(records.map(({ id }) => id));
});

describe('what is unlikely has its name, and is no problem', () => {
	test.each([
		['ownMate', [fish('a'), fish('b', 'a', 'a')], ['b', 'a']],
		['bothParts', [fish('a'), fish('b', 'a'), fish('c', null, 'a')], ['a', 'c', 'b']],
		['wrongSex', [{ ...fish('a'), sex: 'female' as const }, fish('b', 'a')], ['a', 'b']],
		[
			'parentNotOlder',
			[
				{ ...fish('a'), born: 900 },
				{ ...fish('b', 'a'), born: 900 }
			],
			['a', 'b']
		],
		// Common practice, no source: no fish kept in clubs breeds at this age.
		[
			'parentTooYoung',
			[
				{ ...fish('a'), born: 900 },
				{ ...fish('b', null, 'a'), born: 919 }
			],
			['a', 'b']
		]
	])('%s', (code, records, ids) => {
		expect(unlikelyRecords(records)).toEqual([{ code, ids }]);
		expect(pedigreeProblems(records)).toEqual([]);
	});

	test('nothing is said of what is not known, or is as it should be', () => {
		const records = [
			{ ...fish('a'), sex: 'male' as const, born: null },
			{ ...fish('d'), born: 3 },
			{ ...fish('b', 'a', 'd'), born: 23, sex: null },
			fish('c', 'b')
		];
		expect(unlikelyRecords(records)).toEqual([]);
		expect(unlikelyRecords(records, 21)).toEqual([{ code: 'parentTooYoung', ids: ['d', 'b'] }]);
		expect(() => unlikelyRecords(records, NaN)).toThrow(RangeError);
	});
});
