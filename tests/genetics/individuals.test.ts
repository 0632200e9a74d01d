import { describe, expect, test } from 'vitest';
import { inbreeding } from '#genetics/individuals/inbreeding.ts';
import { kinship } from '#genetics/individuals/kinship.ts';
import { orderedPedigree } from '#genetics/individuals/orderedPedigree.ts';
import type { FishRecord } from '#genetics/individuals/pedigree.ts';
import { pedigreeProblems } from '#genetics/individuals/pedigreeProblems.ts';
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
		['ownAncestor', [fish('a', 'b'), fish('b', null, 'a'), fish('c')], ['a', 'b']]
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
