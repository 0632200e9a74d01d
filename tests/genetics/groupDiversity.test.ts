import { describe, expect, test } from 'vitest';
import type { GroupEvent } from '#genetics/groups/event.ts';
import { diversityOverTime } from '#genetics/groups/diversityOverTime.ts';
import { groupFounders } from '#genetics/groups/groupFounders.ts';
import { groupDiversity } from '#genetics/groups/groupDiversity.ts';
import { groupGenerations } from '#genetics/groups/groupGenerations.ts';
import { groupKinship } from '#genetics/groups/groupKinship.ts';
import { expectClose } from '#tests/helpers/expectClose.ts';
import { randomFrom } from '#genetics/drop/randomFrom.ts';
import { founders, kinshipTolerance, merge, one, spawn, split } from './builders.ts';
import { randomClub } from './randomClub.ts';

const close = (actual: number, expected: number, what?: string) =>
	expectClose(actual, expected, kinshipTolerance, what);

test.each([1, 2, 3, 4, 50])('%i young of one pair: 2n/(n+1) founder genomes, 2 founder equivalents', (n) => {
	// Derived: MK = 1/4 + 1/(4n), hence 1/(2MK) = 2n/(n+1); each of the pair gave a half (Lacy 1989, Zoo Biol 8:111).
	const events = [founders('f'), founders('m'), spawn('f', 'm', ['fry', n])];
	const figures = groupDiversity(groupKinship(events), ['fry']);
	close(figures.meanKinship, 1 / 4 + 1 / (4 * n));
	close(figures.founderGenomeEquivalents, (2 * n) / (n + 1));
	close(figures.geneDiversity, 3 / 4 - 1 / (4 * n));
	close(groupFounders(events, ['fry']).founderEquivalents, 2);
});

describe('founder contributions', () => {
	const events: GroupEvent[] = [
		founders('M', 2),
		founders('W', 4),
		founders('x'),
		spawn('M', 'W', ['sons', 5], ['daughters', 5]),
		split('bag', 'sons', 2),
		spawn(one(['bag', 0.5], ['x', 0.3], [null, 0.2]), 'W', ['fry', 6]),
		merge('all', 'fry', 'daughters')
	];
	test('by hand', () => {
		// fry: half from W, of the other half .5 M/2 W/2, .3 x, .2 outside; 6 of 11 fish. daughters: halves.
		const { founders: shares, outside } = groupFounders(events, ['all']);
		const of = Object.fromEntries(shares.map(({ unit, share }) => [unit, share]));
		close(of['M']!, (6 / 11) * (0.5 * 0.25) + (5 / 11) * 0.5);
		close(of['W']!, (6 / 11) * (0.5 + 0.5 * 0.25) + (5 / 11) * 0.5);
		close(of['x']!, (6 / 11) * 0.15);
		expect(outside.length).toBe(1);
		close(outside[0]!, (6 / 11) * 0.1);
	});

	test('founder equivalents: 1/sum p² over single founders', () => {
		// Lacy 1989, Zoo Biology 8:111: p of each of 2 fathers 1/4, of each of 4 mothers 1/8.
		const { founderEquivalents } = groupFounders(events.slice(0, 4), ['sons', 'daughters']);
		close(founderEquivalents, 1 / (2 / 16 + 4 / 64));
	});

	test('many brothers and sisters from a shop count as the pair they came from', () => {
		const shop = founders('shop', 1e9, { within: 0.25 });
		expectClose(groupFounders([shop], ['shop']).founderEquivalents, 2, { abs: 1e-8 });
	});

	const seeds = Array.from({ length: 40 }, (_, i) => 5001 + i);
	test.each(seeds)('shares sum to 1 for every unit of a random history, seed %i', (seed) => {
		const history = randomClub(randomFrom(seed), 16);
		for (const unit of groupKinship(history).units) {
			const { founders: shares, outside, founderEquivalents } = groupFounders(history, [unit]);
			close(
				shares.reduce((sum, { share }) => sum + share, 0) + outside.reduce((sum, p) => sum + p, 0),
				1,
				unit
			);
			expect(founderEquivalents).toBeGreaterThan(0.5);
		}
	});

	test('unknown units are refused', () => {
		expect(() => groupFounders(events, ['nobody'])).toThrow(RangeError);
		expect(() => groupFounders(events, [])).toThrow(RangeError);
	});
});

test('mean kinship of units, weighted by fish, is the mean kinship of all', () => {
	const table = groupKinship(randomClub(randomFrom(6), 16));
	const units = table.units.filter((_, i) => !table.emptied[i]);
	const { meanKinship, meanKinshipOf } = groupDiversity(table, units);
	const fish = units.map((unit) => table.count[table.index.get(unit)!]!);
	const all = fish.reduce((sum, n) => sum + n, 0);
	close(
		units.reduce((sum, unit, i) => sum + (fish[i]! / all) * meanKinshipOf.get(unit)!, 0),
		meanKinship
	);
});

test('generations of young, of a mix and of a colony nobody recorded', () => {
	const events: GroupEvent[] = [
		founders('M', 2),
		founders('W', 2),
		spawn('M', 'W', ['a', 2]),
		spawn('M', 'a', ['b', 2]),
		merge('c', 'a', 'b'),
		{
			kind: 'generations',
			fathers: ['c'],
			mothers: ['c'],
			males: 1,
			females: 2,
			generations: 4,
			young: [{ unit: 'd', count: 3 }]
		}
	];
	const generation = groupGenerations(events);
	expect(['M', 'a', 'b', 'c', 'd'].map((unit) => generation.get(unit))).toEqual([0, 1, 1.5, 1.25, 5.25]);
});

test('diversity falls from the founders to a few young', () => {
	const events: GroupEvent[] = [
		founders('M', 2),
		founders('W', 2),
		spawn('M', 'W', ['a', 4]),
		{ kind: 'count', unit: 'M', count: 0 },
		{ kind: 'count', unit: 'W', count: 0 },
		split('b', 'a', 1),
		{ kind: 'count', unit: 'a', count: 0 }
	];
	const course = diversityOverTime(events, [0, 2, 5, 7]);
	// Four unrelated fish: 1 - 1/8; four of w = 1/8: 1 - (1/8 + 3/4 x 1/8); one fish: 1/2.
	expect(course.map(({ after, fish }) => [after, fish])).toEqual([
		[2, 4],
		[5, 4],
		[7, 1]
	]);
	[1 - 1 / 8, 1 - 1 / 8 - 3 / 32, 1 / 2].forEach((expected, i) => close(course[i]!.geneDiversity, expected));
	expect(() => diversityOverTime([split('b', 'nobody', 1)], [1])).toThrow(RangeError);
});
