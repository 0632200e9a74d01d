import { describe, expect, test } from 'vitest';
import { projectRooms } from '#genetics/ahead/projectRooms.ts';
import { groupKinship } from '#genetics/groups/groupKinship.ts';
import { chanceOfLoss } from '#planning/chanceOfLoss.ts';
import { simulateAhead } from '#planning/ahead/simulateAhead.ts';
import type { LineToCome, StrategyAhead } from '#planning/ahead/strategyAhead.ts';

/** Equal rooms of unrelated fish. */
function rooms(count: number, fathers: number, mothers: number, given: Partial<LineToCome> = {}): LineToCome {
	const names = Array.from({ length: count }, (_, i) => `room ${i}`);
	return {
		table: groupKinship(
			names.flatMap((room) => [
				{ kind: 'founders' as const, unit: `${room} m`, count: fathers },
				{ kind: 'founders' as const, unit: `${room} f`, count: mothers }
			])
		),
		rooms: names.map((room) => ({
			...{ room, house: room, takesPart: true, fathers, mothers },
			...{ males: [`${room} m`], females: [`${room} f`] }
		})),
		losses: { lost: 0, refilled: 0 },
		...given
	};
}
const way = (
	exchange: StrategyAhead['exchange'],
	breeders: StrategyAhead['breeders'] = 'random',
	malesMoved = 1
): StrategyAhead => ({ exchange, breeders, malesMoved, every: 1 });
const play = (line: LineToCome, strategy: StrategyAhead, generations: number, futures: number) =>
	simulateAhead(line, [strategy], { generations, futures, seed: 11 })[0]!;

describe('eight rooms of four males and four females, twenty generations', () => {
	// A study made for this project with another program, 400 replicates; its standard errors are below 0.0013.
	test.each([
		[way('none'), 0.683, 0.9102],
		[way('random'), 0.223, 0.8766],
		[way('ring'), 0.28, 0.8803],
		[way('rotating'), 0.217, 0.8758],
		[way('leastRelated'), 0.214, 0.8753]
	])('%j: inbreeding %d, diversity %d', (strategy, inbreeding, diversity) => {
		const last = play(rooms(8, 4, 4), strategy, 20, 200).at(-1)!;
		expect(Math.abs(last.inbreeding!.mean - inbreeding)).toBeLessThan(
			4 * Math.hypot(last.inbreeding!.standardError, 0.0013) + 0.0005
		);
		expect(Math.abs(last.geneDiversity!.mean - diversity)).toBeLessThan(0.003);
	});

	test('the plan with even broods is better than all of these, and no worse than the study found', () => {
		// The study: least related donors, even broods, least related pairs 0.105 and 0.9091.
		const last = play(rooms(8, 4, 4), way('leastRelated', 'even'), 20, 50).at(-1)!;
		expect(last.inbreeding!.mean).toBeLessThan(0.11);
		expect(last.geneDiversity!.mean).toBeGreaterThan(0.9091 - 0.001);
	});
});

describe('three males and three females in each room; a gene drop made for this project, within 0.02', () => {
	test.each([
		['one room', 1, way('none'), [0.28, 0.51], [0.62, 0.42]],
		['six rooms apart', 6, way('none'), [0.27, 0.51], [0.94, 0.9]],
		['six rooms, one male moves on', 6, way('ring'), [0.14, 0.22], [0.93, 0.89]],
		['six rooms, all males move on', 6, way('ring', 'random', Infinity), [0.05, 0.11], [0.93, 0.88]],
		['four rooms, all males move on', 4, way('ring', 'random', Infinity), [0.05, 0.13], [0.9, 0.83]],
		['eight rooms, all males move on', 8, way('ring', 'random', Infinity), [0.05, 0.11], [0.95, 0.91]]
	] as const)('%s', (_, count, strategy, inbreeding, diversity) => {
		const course = play(rooms(count, 3, 3), strategy, 10, 400);
		for (const [i, generation] of [5, 10].entries()) {
			expect(Math.abs(course[generation]!.inbreeding!.mean - inbreeding[i]!)).toBeLessThan(0.02);
			expect(Math.abs(course[generation]!.geneDiversity!.mean - diversity[i]!)).toBeLessThan(0.02);
		}
	});
});

describe('a ring of pairs, all males moving on, leaves nothing to chance', () => {
	test('four pairs: the course of circular pair mating', () => {
		// Its generation 0 is the first after a move.
		// Kimura & Crow 1963, Genetical Research 4:399: the scheme; the numbers by an own recursion over single fish.
		const course = play(rooms(4, 1, 1), way('ring'), 7, 1).slice(1);
		const expected = [0, 0, 0.0625, 0.09375, 0.125, 0.15625, 0.1855];
		for (const [i, { inbreeding }] of course.entries()) expect(inbreeding!.mean).toBeCloseTo(expected[i]!, 4);
	});

	test.each([
		[4, 0.034748],
		[6, 0.020837]
	])('%i pairs: the rate at last is %d', (pairs, rate) => {
		// Kimura & Crow 1963; rates by an own recursion: N = 8 and 12 fish.
		const course = play(rooms(pairs, 1, 1), way('ring'), 200, 1);
		const F = (generation: number) => course[generation]!.inbreeding!.mean;
		expect((F(150) - F(149)) / (1 - F(149))).toBeCloseTo(rate, 5);
	});
});

test('where who gives to whom is fixed, the mean is that of the recursion of groups', () => {
	const line = rooms(3, 2, 3);
	const course = play(line, way('ring'), 8, 4000);
	const recursion = projectRooms(line.table, line.rooms, 8, [
		{ from: 'room 2', to: 'room 0', males: 1 },
		{ from: 'room 0', to: 'room 1', males: 1 },
		{ from: 'room 1', to: 'room 2', males: 1 }
	]);
	for (const [i, { inbreeding, geneDiversity }] of course.entries()) {
		if (i === 0) continue;
		const near = (ours: { mean: number; standardError: number }, theirs: number) =>
			expect(Math.abs(ours.mean - theirs)).toBeLessThan(4 * ours.standardError + 1e-9);
		near(inbreeding!, recursion[i]!.inbreeding);
		near(geneDiversity!, recursion[i]!.geneDiversity);
	}
});

describe('rooms that lose the line', () => {
	test('as often as the chain of holders says, with and without filling them again', () => {
		for (const refilled of [0, 0.3]) {
			const line = rooms(3, 1, 1, { losses: { lost: 0.2, refilled } });
			const course = play(line, way('none'), 10, 4000);
			const chain = chanceOfLoss(
				{ ...{ holders: 3, maxHolders: 3, lossPerYear: 0.2 }, restockPerHolder: refilled, correlation: 0 },
				10
			);
			for (const [year, chance] of chain.entries())
				expect(Math.abs(course[year + 1]!.lost - chance)).toBeLessThan(
					4 * Math.sqrt((chance * (1 - chance)) / 4000) + 1e-9
				);
		}
	});

	test('rooms of one house are lost together', () => {
		const three = rooms(3, 1, 1, { losses: { lost: 0.2, refilled: 0 } });
		const together = { ...three, rooms: three.rooms.map((room) => ({ ...room, house: 'one' })) };
		expect(Math.abs(play(together, way('none'), 1, 4000)[1]!.lost - 0.2)).toBeLessThan(0.03);
	});
});

test('the same seed gives the same answer, and progress can be heard', () => {
	const line = rooms(3, 2, 2, { losses: { lost: 0.1, refilled: 0.2 } });
	const strategies = [way('random'), way('rotating'), way('leastRelated', 'even')];
	const heard: number[] = [];
	const once = simulateAhead(line, strategies, {
		...{ generations: 6, futures: 20, seed: 3 },
		hear: (played) => heard.push(played)
	});
	expect(simulateAhead(line, strategies, { generations: 6, futures: 20, seed: 3 })).toEqual(once);
	expect(heard).toEqual(Array.from({ length: 60 }, (_, i) => i + 1));
});

test('a room that takes no part neither gives nor gets', () => {
	const line = rooms(2, 1, 1);
	const shut = { ...line, rooms: line.rooms.map((room) => ({ ...room, takesPart: false })) };
	expect(play(shut, way('ring'), 4, 1)).toEqual(play(line, way('none'), 4, 1));
});

test.each([[{ generations: 0, futures: 1, seed: 1 }], [{ generations: 1, futures: 0.5, seed: 1 }]])(
	'%j is refused',
	(asked) => {
		expect(() => simulateAhead(rooms(1, 1, 1), [way('none')], asked)).toThrow(RangeError);
	}
);
