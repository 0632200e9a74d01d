import { describe, expect, test } from 'vitest';
import type { GroupEvent, UnitId } from '#genetics/groups/event.ts';
import { dropFigures } from '#genetics/drop/dropFigures.ts';
import { droppedFigure } from '#genetics/drop/droppedFigure.ts';
import { dropGenes } from '#genetics/drop/dropGenes.ts';
import { randomFrom } from '#genetics/drop/randomFrom.ts';
import { spreadOf } from '#genetics/drop/spreadOf.ts';
import { groupFigure, type GroupQuestion } from '#genetics/groups/groupFigure.ts';
import { groupKinship } from '#genetics/groups/groupKinship.ts';
import { founders, spawn } from './builders.ts';
import { randomClub } from './randomClub.ts';

const drops = 3000;
const standardErrors = 4;

function compare(events: readonly GroupEvent[], seed: number) {
	const table = groupKinship(events);
	const questions = table.units.flatMap((a, i): GroupQuestion[] => [
		{ ask: 'inbreeding', units: [a] },
		...(table.count[i]! > 1 ? [{ ask: 'within' as const, units: [a] }] : []),
		...table.units.slice(0, i).map((b): GroupQuestion => ({ ask: 'between', these: [a], those: [b] }))
	]);
	const spreads = dropFigures(events, questions, { random: randomFrom(seed), drops, places: 1 });
	return questions.map((question, q) => {
		const { mean, standardError } = spreads[q]!;
		const expected = groupFigure(table, question);
		return { question, expected, mean, standardError, difference: mean - expected };
	});
}
const off = (figures: ReturnType<typeof compare>) =>
	figures.filter(
		({ difference, standardError }) => Math.abs(difference) > standardErrors * standardError + 1e-9
	);

describe('every kind of event: the recursion agrees with dropped genes (MacCluer et al. 1986)', () => {
	const seeds = Array.from({ length: 8 }, (_, i) => 7001 + i);
	test.each(seeds)('random history, seed %i', (seed) => {
		expect(off(compare(randomClub(randomFrom(seed), 14), seed))).toEqual([]);
	});
});

describe('founders are as related as they are said to be', () => {
	const family = (within: number, inbreeding: number, kinship: number): GroupEvent[] => [
		{ kind: 'founders', unit: 'a', count: 3, within, inbreeding },
		{ kind: 'founders', unit: 'b', count: 2, within, inbreeding, related: [{ unit: 'a', kinship }] }
	];
	test.each([
		[0, 0, 0],
		[0, 0.3, 0],
		[0.25, 0, 0.25],
		[0.125, 0, 0.05],
		[0.25, 0.2, 0.1],
		[0.3, 0.6, 0.3],
		[0.05, 0.02, 0.05],
		[1, 1, 0]
	])('kinship %d within, inbreeding %d, %d between', (within, inbreeding, kinship) => {
		expect(off(compare(family(within, inbreeding, kinship), 11))).toEqual([]);
	});

	test('kinships that cannot be are refused', () => {
		expect(() => dropGenes(family(0, 0, 0.25), randomFrom(1))).toThrow(RangeError);
		expect(() => dropGenes(family(0.9, 0, 0), randomFrom(1))).toThrow(RangeError);
	});
});

test('a brood of one pair has four genes at most', () => {
	const shop: GroupEvent = { kind: 'founders', unit: 'shop', count: 40, within: 0.25 };
	const genes = new Set(
		dropGenes([shop], randomFrom(3))
			.get('shop')!
			.flatMap((fish) => [...fish])
	);
	expect(genes.size).toBe(4);
});

test('more places narrow the spread and leave the mean', () => {
	// The mean of k unlinked places has a k-th of the variance that the places add (Mendel's chance).
	const events = [
		founders('f'),
		founders('m'),
		spawn('f', 'm', ['s', 1], ['d', 1]),
		spawn('s', 'd', ['fry', 1])
	];
	const ask: GroupQuestion[] = [{ ask: 'inbreeding', units: ['fry'] }];
	const [one] = dropFigures(events, ask, { random: randomFrom(5), drops: 4000, places: 1 });
	const [many] = dropFigures(events, ask, { random: randomFrom(5), drops: 1000, places: 64 });
	for (const { mean, standardError } of [one!, many!])
		expect(Math.abs(mean - 1 / 4)).toBeLessThan(standardErrors * standardError);
	expect([one!.low, one!.high]).toEqual([0, 1]);
	expect(many!.low).toBeGreaterThan(0.05);
	expect(many!.high).toBeLessThan(0.5);
});

test('gene diversity of ten young of a pair: 3/4 - 1/40 on average', () => {
	const events = [founders('f'), founders('m'), spawn('f', 'm', ['fry', 10])];
	const [spread] = dropFigures(events, [{ ask: 'withSelf', units: ['fry'] }], { random: randomFrom(9) });
	// Derived: MK = 1/4 + 1/(4n).
	expect(Math.abs(spread!.mean - (1 / 4 + 1 / 40))).toBeLessThan(standardErrors * spread!.standardError);
	expect(spread!.low).toBeLessThan(spread!.mean);
});

test('the same seed drops the same genes', () => {
	const events = randomClub(randomFrom(2), 14);
	expect(dropGenes(events, randomFrom(4))).toEqual(dropGenes(events, randomFrom(4)));
});

test('questions that make no sense are refused', () => {
	const dropped: ReadonlyMap<UnitId, Int32Array[]> = new Map([['a', [new Int32Array([1, 2])]]]);
	expect(() => droppedFigure(dropped, { ask: 'inbreeding', units: ['nobody'] })).toThrow(RangeError);
	expect(() => droppedFigure(dropped, { ask: 'within', units: ['a'] })).toThrow(RangeError);
	expect(() => dropFigures([], [], { random: randomFrom(1), drops: 0 })).toThrow(RangeError);
	expect(() => spreadOf([])).toThrow(RangeError);
});

test('quantiles of 0 to 100 are 2.5 and 97.5', () => {
	const { low, high, mean } = spreadOf(Array.from({ length: 101 }, (_, i) => 100 - i));
	expect([low, mean, high]).toEqual([2.5, 50, 97.5]);
});
