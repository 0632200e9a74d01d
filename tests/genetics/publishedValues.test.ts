/** Values from outside the project that other files do not check: each with its source beside it. */
import { describe, expect, test } from 'vitest';
import { guessedBreeders } from '#genetics/ahead/guessedBreeders.ts';
import { projectRooms } from '#genetics/ahead/projectRooms.ts';
import type { RoomAhead } from '#genetics/ahead/room.ts';
import { inbreeding } from '#genetics/individuals/inbreeding.ts';
import { inbreedingByAncestors } from '#genetics/individuals/inbreedingByAncestors.ts';
import { inbreedingByTable } from '#genetics/individuals/inbreedingByTable.ts';
import { kinshipOfPairs } from '#genetics/individuals/kinshipOfPairs.ts';
import { orderedPedigree } from '#genetics/individuals/orderedPedigree.ts';
import { groupDiversity } from '#genetics/groups/groupDiversity.ts';
import { groupKinship } from '#genetics/groups/groupKinship.ts';
import { diversityAhead } from '#genetics/size/diversityAhead.ts';
import { effectiveSizeOfSexes } from '#genetics/size/effectiveSizeOfSexes.ts';
import { inbreedingAhead } from '#genetics/size/inbreedingAhead.ts';
import { kinshipWords } from '#genetics/words/kinshipWords.ts';
import { expectClose } from '#tests/helpers/expectClose.ts';
import {
	avoiding,
	avoidingRates,
	eightAnimals,
	fishOf,
	pairRingOf,
	pairRingOfEight,
	pairRingRates,
	ringOf,
	ringOfEight
} from '#tests/reference/pedigrees.ts';
import { founders, kinshipTolerance } from './builders.ts';

/** Half a unit in the last of so many decimals, as the value was printed. */
const printed = (decimals: number) => ({ abs: 0.5000001 * 10 ** -decimals });
const ways = [inbreeding, inbreedingByAncestors, inbreedingByTable];
const meanOf = (values: Float64Array) => values.reduce((sum, value) => sum + value, 0) / values.length;

describe('pedigrees', () => {
	test('eight animals (Wray 1990): mean inbreeding .1601562, greatest .46875', () => {
		for (const run of ways) {
			const F = run(orderedPedigree(eightAnimals));
			expectClose(meanOf(F), 0.1601562, { abs: 1e-7 });
			expectClose(Math.max(...F), 0.46875, kinshipTolerance);
		}
	});

	test('three-quarter sibs 3/16 and double first cousins 1/8 (standard values)', () => {
		const rows = ['a', 'b', 'c', 'd'].map((id) => [id, null, null] as const);
		const pedigree = orderedPedigree(
			fishOf([
				...rows,
				...['s1', 's3', 'd1'].map((id) => [id, 'a', 'b'] as const),
				...['s2', 'd2'].map((id) => [id, 'c', 'd'] as const),
				['x', 's1', 'd2'],
				['y', 's2', 'd1'],
				['p', 's1', 'd'],
				['q', 's3', 'd']
			])
		);
		const at = (id: string) => pedigree.ids.indexOf(id);
		const pairs = Int32Array.of(at('x'), at('y'), at('p'), at('q'));
		const [cousins, sibs] = kinshipOfPairs(pedigree, inbreeding(pedigree), pairs);
		expectClose(cousins!, 1 / 8, kinshipTolerance);
		expectClose(sibs!, 3 / 16, kinshipTolerance);
	});

	test('a ring of eight: all seven generations', () => {
		const F = inbreeding(orderedPedigree(ringOf(8, 7)));
		ringOfEight.forEach((value, t) =>
			expectClose(meanOf(F.subarray((t + 1) * 8, (t + 2) * 8)), value, printed(4), `generation ${t}`)
		);
	});

	test('rings of pairs: the series of eight, and the rate in the end', () => {
		const F = inbreeding(orderedPedigree(pairRingOf(8, 8)));
		// The young of the first parents are counted as generation 0.
		pairRingOfEight.forEach((value, t) =>
			expectClose(meanOf(F.subarray((t + 1) * 8, (t + 2) * 8)), value, printed(4), `generation ${t}`)
		);
		for (const [size, rate] of pairRingRates) {
			const long = inbreeding(orderedPedigree(pairRingOf(size, 400)));
			const t = Math.round(Math.min(390, 8 / rate));
			expectClose(
				1 - (1 - long[(t + 1) * size]!) / (1 - long[t * size]!),
				rate,
				printed(6),
				`ring of ${size}`
			);
		}
	});

	test('mates as far apart as can be: the rate nears 1/(4N) as N grows', () => {
		const off = avoidingRates.map(([size, about]) => {
			const long = inbreeding(orderedPedigree(avoiding(size, 120)));
			const left = (t: number) => 1 - meanOf(long.subarray(t * size, (t + 1) * size));
			return (1 - left(120) / left(119)) / about - 1;
		});
		off.slice(1).forEach((share, i) => expect(Math.abs(share)).toBeLessThan(Math.abs(off[i]!)));
		expect(Math.abs(off.at(-1)!)).toBeLessThan(0.06);
	});
});

describe('founders and breeders, as told to clubs (own arithmetic on the formulas of Wright 1931)', () => {
	test.each([
		[2, 75, 0],
		[3, 83, 0],
		[5, 90, 0],
		[10, 95, 0],
		[15, 96.7, 1],
		[20, 97.5, 1],
		[30, 98.3, 1]
	])('%i founders hold 1 - 1/(2N) of the variety: %d %', (count, percent, decimals) => {
		const { geneDiversity } = groupDiversity(groupKinship([founders('wild', count)]), ['wild']);
		expectClose(100 * geneDiversity, percent, printed(decimals));
	});

	test.each([
		[1, 1, 2, 25, 24, 6],
		[1, 2, 2.7, 19, 35, 13],
		[1, 3, 3, 17, 40, 16],
		[2, 3, 4.8, 10, 58, 33],
		[3, 3, 6, 8.3, 65, 42],
		[5, 5, 10, 5, 77, 60],
		[10, 10, 20, 2.5, 88, 78],
		[25, 25, 50, 1, 95, 90]
	])(
		'%i males and %i females: like %d breeders, %d % a generation',
		(males, females, like, rate, five, ten) => {
			const size = effectiveSizeOfSexes(males, females);
			expectClose(size, like, printed(1));
			expectClose(100 * inbreedingAhead(size, 1), rate, printed(rate % 1 ? 1 : 0));
			// Half a unit, and the last digit where it was cut off instead of rounded: 34.9 is told as 35, 9.95 as 10.
			expectClose(100 * diversityAhead(1, size, 5), five, { abs: 0.6 });
			expectClose(100 * diversityAhead(1, size, 10), ten, { abs: 0.6 });
		}
	);

	test('one male with 99 females is like four breeders; 50 + 50 add half a per cent', () => {
		expectClose(effectiveSizeOfSexes(1, 99), 4, { abs: 0.05 });
		expectClose(inbreedingAhead(effectiveSizeOfSexes(50, 50), 1), 0.005, kinshipTolerance);
	});

	test('three of ten males, at least one, where nobody watched (own choice)', () => {
		expect([1, 3, 4, 10].map(guessedBreeders)).toEqual([1, 1, 1.2, 3]);
	});

	test('0.25, 0.125 and 0.0625 are brother and sister, half of them, cousins', () => {
		expect([0.25, 0.125, 0.0625].map((kinship) => kinshipWords(kinship).step)).toEqual([
			'siblings',
			'halfSiblings',
			'cousins'
		]);
	});
});

describe('why a ring of small rooms beats one small room', () => {
	/**
	 * A gene drop apart from this code (own arithmetic): 120 runs; each room begins with three unrelated males and
	 * three unrelated females; parents drawn with equal chance; so exact to about 0.02.
	 */
	const dropped = { abs: 0.02 };
	test.each([
		['one room, closed', 1, 0, [0.28, 0.51], [0.62, 0.42]],
		['six rooms, closed', 6, 0, [0.27, 0.51], [0.94, 0.9]],
		['six rooms, one male moves on', 6, 1, [0.14, 0.22], [0.93, 0.89]],
		['six rooms, all males move on', 6, 3, [0.05, 0.11], [0.93, 0.88]],
		['four rooms, all males move on', 4, 3, [0.05, 0.13], [0.9, 0.83]],
		['eight rooms, all males move on', 8, 3, [0.05, 0.11], [0.95, 0.91]]
	] as const)('%s', (_name, rooms, moving, F, diversity) => {
		const names = Array.from({ length: rooms }, (_, i) => `room ${i}`);
		const table = groupKinship(names.flatMap((room) => [founders(`${room} m`, 3), founders(`${room} f`, 3)]));
		const ahead = names.map((room): RoomAhead => {
			return { room, males: [`${room} m`], females: [`${room} f`], fathers: 3, mothers: 3 };
		});
		const ring = names.map((from, i) => ({ from, to: names[(i + 1) % rooms]!, males: moving }));
		const course = projectRooms(table, ahead, 10, moving ? ring : []);
		for (const [i, generation] of [5, 10].entries()) {
			expectClose(course[generation]!.inbreeding, F[i]!, dropped, `F in ${generation}`);
			expectClose(course[generation]!.geneDiversity, diversity[i]!, dropped, `diversity in ${generation}`);
		}
	});

	test('six rooms in one pond', () => {
		const table = groupKinship([founders('m', 18), founders('f', 18)]);
		const pond = { room: 'pond', males: ['m'], females: ['f'], fathers: 18, mothers: 18 };
		const course = projectRooms(table, [pond], 10);
		expectClose(course[5]!.inbreeding, 0.05, dropped);
		expectClose(course[10]!.inbreeding, 0.12, dropped);
		expectClose(course[5]!.geneDiversity, 0.92, dropped);
		expectClose(course[10]!.geneDiversity, 0.86, dropped);
	});
});
