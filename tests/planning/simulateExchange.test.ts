/**
 * The simulated exchange against a study made for this project with another program: 20 generations, founders
 * unrelated, one male a room a generation, 400 replicates (full: 100), standard errors between replicates.
 */
import { describe, expect, test } from 'vitest';
import { simulateExchange, type ExchangeStrategy } from '#planning/simulateExchange.ts';

const generations = 20;
const replicates = 100;

type Way = Pick<ExchangeStrategy, 'exchange' | 'breeders' | 'pairs'>;
const way = (
	exchange: Way['exchange'],
	breeders: Way['breeders'] = 'random',
	pairs: Way['pairs'] = 'random'
): Way => ({ exchange, breeders, pairs });
const after20 = (rooms: number, breedersPerRoom: number, given: Way, seed: number) => {
	const course = simulateExchange(
		{ rooms, breedersPerRoom, lambda: 0.1, bagEvery: 1, ...given },
		generations,
		replicates,
		seed
	);
	return {
		F: course.inbreeding.at(-1)!,
		SE: course.inbreedingSE.at(-1)!,
		GD: course.geneDiversity.at(-1)!,
		GDSE: course.geneDiversitySE.at(-1)!
	};
};
/** Four standard errors of the difference, and half a unit of the last digit printed. */
const tolerance = (ours: number, printed: number) =>
	4 * Math.hypot(ours, Math.max(printed, 0.00005)) + 0.00005;

/** F, its standard error, gene diversity, its standard error. */
type Row = [string, Way, [number, number, number, number], [number, number, number, number]];
const rows: Row[] = [
	['no exchange', way('none'), [0.684, 0.0009, 0.88, 0.0001], [0.683, 0.0008, 0.9102, 0.0001]],
	['random partner', way('random'), [0.244, 0.0013, 0.8373, 0.0004], [0.223, 0.0012, 0.8766, 0.0002]],
	['ring', way('circle'), [0.282, 0.0013, 0.8409, 0.0003], [0.28, 0.0011, 0.8803, 0.0002]],
	['turning ring', way('rotating'), [0.239, 0.0013, 0.8366, 0.0004], [0.217, 0.0011, 0.8758, 0.0002]],
	['least related', way('leastRelated'), [0.234, 0.0012, 0.836, 0.0003], [0.214, 0.0012, 0.8753, 0.0002]],
	[
		'no exchange, broods even',
		way('none', 'equalised'),
		[0.493, 0.0009, 0.9124, 0],
		[0.492, 0.0007, 0.9343, 0]
	],
	[
		'ring, broods even',
		way('circle', 'equalised'),
		[0.202, 0.0011, 0.8841, 0.0001],
		[0.201, 0.0008, 0.913, 0]
	],
	[
		'least related, broods even',
		way('leastRelated', 'equalised'),
		[0.167, 0.001, 0.8818, 0.0001],
		[0.147, 0.0009, 0.9107, 0]
	],
	[
		'ring, broods even, least related pairs',
		way('circle', 'equalised', 'leastRelated'),
		[0.158, 0.0002, 0.8818, 0],
		[0.157, 0.0002, 0.9113, 0]
	],
	[
		'least related, broods even, least related pairs',
		way('leastRelated', 'equalised', 'leastRelated'),
		[0.124, 0.0002, 0.8796, 0.0001],
		[0.105, 0.0002, 0.9091, 0]
	]
];

describe.each([6, 8])('%i rooms of 8 breeders, seed 20', (rooms) => {
	test.each(rows)('%s', (_, given, six, eight) => {
		const [F, SE, GD, GDSE] = rooms === 6 ? six : eight;
		const ours = after20(rooms, 8, given, 20);
		expect(Math.abs(ours.F - F)).toBeLessThanOrEqual(tolerance(ours.SE, SE));
		expect(Math.abs(ours.GD - GD)).toBeLessThanOrEqual(tolerance(ours.GDSE, GDSE));
	});

	test('all chosen together: no worse than the study, kinship of all and of the pairs together', () => {
		const [F, SE, GD] = rooms === 6 ? [0.101, 0.0002, 0.8841] : [0.082, 0.0002, 0.9121];
		const ours = after20(rooms, 8, way('full'), 20);
		// The pairs of the last generation bred the breeders measured: their mean kinship is F.
		expect(1 - ours.GD + 0.1 * ours.F).toBeLessThanOrEqual(
			1 - GD + 0.1 * F + tolerance(Math.hypot(ours.GDSE, 0.1 * ours.SE), Math.hypot(0.0001, 0.1 * SE))
		);
	});
});

describe('without exchange: the closed recursion of the same study', () => {
	// Own recursion w' = w + (s - w) / (2 Nf), and the one for even broods; values at generation 20.
	test.each([
		[4, 0.8915, 0.7759],
		[8, 0.6838, 0.4924],
		[12, 0.5398, 0.3555],
		[20, 0.3747, 0.2273]
	])('%i breeders, seed 5', (breeders, random, even) => {
		const one = after20(8, breeders, way('none'), 5);
		expect(Math.abs(one.F - random)).toBeLessThanOrEqual(4 * one.SE + 0.00005);
		const other = after20(8, breeders, way('none', 'equalised'), 5);
		expect(Math.abs(other.F - even)).toBeLessThanOrEqual(4 * other.SE + 0.00005);
	});
});

test('one pair a room, no exchange: the full-sib series (Wright 1921; Falconer & Mackay 1996 ch. 5, from memory)', () => {
	const strategy = { rooms: 3, breedersPerRoom: 2, lambda: 0, bagEvery: 1, ...way('none') };
	const { inbreeding, inbreedingSE } = simulateExchange(strategy, 9, 2, 1);
	for (const [i, value] of [
		0,
		1 / 4,
		3 / 8,
		1 / 2,
		19 / 32,
		43 / 64,
		47 / 64,
		201 / 256,
		423 / 512
	].entries())
		expect(inbreeding[i]).toBeCloseTo(value, 12);
	expect(inbreedingSE.every((error) => error === 0)).toBe(true);
});

test('founders are unrelated: the first generation keeps 1 - 1/(2 breeders) of diversity less one step of drift', () => {
	// Two rooms of one pair: each brood's two fish have kinship 1/4, self 1/2; between rooms 0 without exchange.
	const strategy = { rooms: 2, breedersPerRoom: 2, lambda: 0, bagEvery: 1, ...way('none') };
	expect(simulateExchange(strategy, 1, 1, 1).geneDiversity[0]).toBeCloseTo(1 - (0.5 + 0.25) / 2 / 2, 12);
});

test('fewer bags, more inbreeding; the same seed gives the same course', () => {
	// Study as above, 6 rooms of 8, ring: a bag every generation .282, every 2nd .379, every 4th .489.
	const course = (bagEvery: number) =>
		simulateExchange({ rooms: 6, breedersPerRoom: 8, lambda: 0, bagEvery, ...way('circle') }, 20, 100, 3);
	for (const [every, value] of [
		[2, 0.379],
		[4, 0.489]
	] as const) {
		const { inbreeding, inbreedingSE } = course(every);
		expect(Math.abs(inbreeding.at(-1)! - value)).toBeLessThanOrEqual(tolerance(inbreedingSE.at(-1)!, 0.0015));
	}
	expect(course(2)).toEqual(course(2));
});

test.each([{ breedersPerRoom: 3 }, { rooms: 1 }, { bagEvery: 0 }, { lambda: Number.NaN }])(
	'%j is refused',
	(given) => {
		const strategy = { rooms: 2, breedersPerRoom: 4, lambda: 0, bagEvery: 1, ...way('circle'), ...given };
		expect(() => simulateExchange(strategy, 1, 1, 1)).toThrow(RangeError);
	}
);
