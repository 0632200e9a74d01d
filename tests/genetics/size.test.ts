import { describe, expect, test } from 'vitest';
import { inbreeding } from '#genetics/individuals/inbreeding.ts';
import { kinshipOfPairs } from '#genetics/individuals/kinshipOfPairs.ts';
import { orderedPedigree } from '#genetics/individuals/orderedPedigree.ts';
import { differenceBetweenRooms } from '#genetics/size/differenceBetweenRooms.ts';
import { diversityAhead } from '#genetics/size/diversityAhead.ts';
import { effectiveSizeFromInbreeding } from '#genetics/size/effectiveSizeFromInbreeding.ts';
import { effectiveSizeFromKinship } from '#genetics/size/effectiveSizeFromKinship.ts';
import { effectiveSizeFromRate } from '#genetics/size/effectiveSizeFromRate.ts';
import { effectiveSizeOfFamilies } from '#genetics/size/effectiveSizeOfFamilies.ts';
import { effectiveSizeOfFamiliesBySex } from '#genetics/size/effectiveSizeOfFamiliesBySex.ts';
import { effectiveSizeOfSexes } from '#genetics/size/effectiveSizeOfSexes.ts';
import { effectiveSizeOverTime } from '#genetics/size/effectiveSizeOverTime.ts';
import { effectiveSizeSexLinked } from '#genetics/size/effectiveSizeSexLinked.ts';
import { equivalentGenerations } from '#genetics/size/equivalentGenerations.ts';
import { inbreedingAhead } from '#genetics/size/inbreedingAhead.ts';
import { rateOfInbreeding } from '#genetics/size/rateOfInbreeding.ts';
import { sizeToKeepDiversity } from '#genetics/size/sizeToKeepDiversity.ts';
import { expectClose } from '#tests/helpers/expectClose.ts';
import { randomFrom } from '#genetics/drop/randomFrom.ts';
import { fullSibLine, fullSibSeries, sixAnimals } from '#tests/reference/pedigrees.ts';
import { kinshipTolerance } from './builders.ts';

/** Half a unit in the last of so many decimals, as the value was printed. */
const printed = (decimals: number) => ({ abs: 0.5000001 * 10 ** -decimals });

describe('effective size: formulas of Wright 1931 and 1938, Crow & Kimura (from memory), numbers computed', () => {
	test.each([
		[effectiveSizeOfSexes(1, 10), 3.63636, 5],
		[effectiveSizeOfSexes(10, 10), 20, 9],
		[effectiveSizeOfSexes(5, 45), 18, 9],
		[effectiveSizeOfFamilies(20, 0), 39, 9],
		[effectiveSizeOfFamilies(20, 2), 19.5, 9],
		[effectiveSizeOfFamilies(20, 6), 9.75, 9],
		[effectiveSizeOverTime([100, 10, 100]), 25, 9],
		[effectiveSizeOverTime([50, 50, 5, 50]), 15.3846, 4],
		[effectiveSizeSexLinked(5, 10), 11.25, 9]
	])('%d is %d', (found, expected, decimals) => expectClose(found, expected, printed(decimals)));

	test('Hill 1979 (from memory) with chance alone is Wright 1931', () => {
		for (const [M, F] of [
			[10, 10],
			[3, 12],
			[8, 2]
		] as const) {
			const ofMales = { breeders: M, varianceOfSons: 1, varianceOfDaughters: F / M, covariance: 0 };
			const ofFemales = { breeders: F, varianceOfSons: M / F, varianceOfDaughters: 1, covariance: 0 };
			const found = effectiveSizeOfFamiliesBySex(ofMales, ofFemales, 1);
			expectClose(found, effectiveSizeOfSexes(M, F), kinshipTolerance);
			// Twice the time between generations: twice the breeders in each.
			expectClose(effectiveSizeOfFamiliesBySex(ofMales, ofFemales, 2), 2 * found, kinshipTolerance);
		}
	});

	test('Hill 1979 with one son and one daughter of each is twice the number, Crow & Kimura less 1', () => {
		const equal = { breeders: 10, varianceOfSons: 0, varianceOfDaughters: 0, covariance: 0 };
		expectClose(effectiveSizeOfFamiliesBySex(equal, equal, 1), 40, kinshipTolerance);
	});

	test('90 % for 100 and 200 years (Soulé et al. 1986, formula from memory, numbers computed)', () => {
		for (const [L, hundred, twoHundred] of [
			[1, 474.81, 949.37],
			[0.5, 949.37, 1898.49],
			[5, 95.16, 190.07],
			[10, 47.71, 95.16]
		] as const) {
			expectClose(sizeToKeepDiversity(0.9, 100, L), hundred, printed(2));
			expectClose(sizeToKeepDiversity(0.9, 200, L), twoHundred, printed(2));
			expectClose(diversityAhead(1, sizeToKeepDiversity(0.9, 100, L), 100 / L), 0.9, kinshipTolerance);
		}
	});
});

test('inbreeding ahead (numbers computed)', () => {
	for (const [size, t, value] of [
		[10, 1, 0.05],
		[10, 5, 0.226219],
		[10, 10, 0.401263],
		[10, 20, 0.641514],
		[50, 20, 0.182093]
	] as const) {
		expectClose(inbreedingAhead(size, t), value, printed(6));
		expectClose(diversityAhead(1, size, t), 1 - inbreedingAhead(size, t), kinshipTolerance);
	}
	expectClose(inbreedingAhead(10, 15), inbreedingAhead(10, 5, inbreedingAhead(10, 10)), kinshipTolerance);
});

test('inbreeding ahead is what dropped genes give in an ideal population', () => {
	// Wright-Fisher: 2N genes, each drawn from the 2N before, is how the formula was meant (Wright 1931).
	const [size, generations, replicates] = [5, 6, 4000];
	const random = randomFrom(61);
	let sum = 0;
	let squares = 0;
	for (let k = 0; k < replicates; k++) {
		let genes = Array.from({ length: 2 * size }, (_, gene) => gene);
		for (let t = 0; t < generations; t++)
			genes = genes.map(() => genes[Math.floor(random() * genes.length)]!);
		const times = new Map<number, number>();
		for (const gene of genes) times.set(gene, (times.get(gene) ?? 0) + 1);
		// Two different genes alike, which at generation t have had t - 1 chances to come from one gene before.
		let alike = 0;
		for (const count of times.values()) alike += (count * (count - 1)) / (2 * size * (2 * size - 1));
		sum += alike;
		squares += alike * alike;
	}
	const mean = sum / replicates;
	const error = Math.sqrt((squares / replicates - mean * mean) / replicates);
	expectClose(mean, inbreedingAhead(size, generations), { abs: 4 * error });
});

test('difference between rooms: exact, and about 1 / (4Nm + 1) (Wright 1931, from memory; computed)', () => {
	for (const [size, m, value] of [
		[10, 0.1, 0.175705],
		[20, 0.05, 0.187923],
		[50, 0.02, 0.195187],
		[100, 0.01, 0.197597]
	] as const)
		expectClose(differenceBetweenRooms(size, m), value, printed(6));
	for (const [migrants, value] of [
		[1, 0.2],
		[0.5, 1 / 3],
		[2, 1 / 9],
		[5, 1 / 21],
		[10, 1 / 41]
	] as const)
		expectClose(differenceBetweenRooms(1e6, migrants / 1e6), value, { rel: 1e-4 });
	expect(differenceBetweenRooms(10, 0)).toBe(1);
	expect(differenceBetweenRooms(10, 1)).toBe(0);
});

describe('realised size', () => {
	test('equivalent generations count known ancestors by halves', () => {
		// 1 and 2 are founders, 4 has one known parent, itself a founder.
		const pedigree = orderedPedigree(sixAnimals);
		expect([...equivalentGenerations(pedigree)]).toEqual([0, 0, 1, 0.5, 1.75, 1.875]);
		const line = orderedPedigree(fullSibLine(4));
		expect([...equivalentGenerations(line)]).toEqual([0, 0, 1, 1, 2, 2, 3, 3, 4, 4]);
	});

	test('full sibs: the rate nears 0.19098, between 2 and 3 breeders', () => {
		// 1 - (1 + sqrt 5)/4, from F_t = (1 + 2 F_(t-1) + F_(t-2)) / 4: Wright 1921.
		const limit = 1 - (1 + Math.sqrt(5)) / 4;
		expectClose(rateOfInbreeding(fullSibSeries[10]!, fullSibSeries[11]!), limit, { abs: 1e-4 });
		expectClose(effectiveSizeFromRate(limit), 2.618, printed(3));
		const pedigree = orderedPedigree(fullSibLine(40));
		const F = inbreeding(pedigree);
		const g = equivalentGenerations(pedigree);
		const last = effectiveSizeFromInbreeding(F.subarray(-2), g.subarray(-2));
		expectClose(last.size!, 2.618, { rel: 0.02 }, 'from inbreeding');
		expect(last.counted).toBe(2);
		const n = F.length;
		const pair = kinshipOfPairs(pedigree, F, Int32Array.of(n - 2, n - 1));
		const fromKinship = effectiveSizeFromKinship(pair, [g[n - 1]!]);
		expectClose(fromKinship.size!, 2.618, { rel: 0.02 }, 'from kinship');
	});

	test('a steady rate gives its size, over one generation or many', () => {
		for (const size of [4, 25, 300]) {
			const at = (t: number) => inbreedingAhead(size, t);
			expectClose(effectiveSizeFromRate(rateOfInbreeding(at(3), at(4))), size, { rel: 1e-9 });
			expectClose(effectiveSizeFromRate(rateOfInbreeding(at(3), at(9), 6)), size, { rel: 1e-9 });
			const fish = [2, 3.5, 8];
			const F = fish.map((g) => at(g - 1));
			const found = effectiveSizeFromInbreeding(F, fish);
			expectClose(found.size!, size, { rel: 1e-9 });
			expectClose(found.standardError!, 0, { abs: 1e-6 });
			expectClose(effectiveSizeFromKinship(fish.map(at), fish).size!, size, { rel: 1e-9 });
		}
	});

	test('where nothing went up, no size is told', () => {
		expect(effectiveSizeFromInbreeding([0, 0], [3, 4])).toEqual({
			size: null,
			standardError: null,
			counted: 2
		});
		expect(effectiveSizeFromInbreeding([0.2], [1])).toEqual({ size: null, standardError: null, counted: 0 });
		expect(effectiveSizeFromKinship([], [])).toEqual({ size: null, standardError: null, counted: 0 });
	});
});

test('what does not fit is refused', () => {
	const families = { breeders: 3, varianceOfSons: 1, varianceOfDaughters: 1, covariance: 0 };
	for (const wrong of [
		() => effectiveSizeOfSexes(0, 3),
		() => effectiveSizeSexLinked(3, NaN),
		() => effectiveSizeOfFamilies(0, 1),
		() => effectiveSizeOfFamilies(3, -1),
		() => effectiveSizeOfFamiliesBySex(families, { ...families, breeders: 0 }, 1),
		() => effectiveSizeOfFamiliesBySex({ ...families, varianceOfSons: -1 }, families, 1),
		() => effectiveSizeOfFamiliesBySex(families, families, 0),
		() => effectiveSizeOverTime([]),
		() => effectiveSizeOverTime([3, 0]),
		() => rateOfInbreeding(1, 1),
		() => rateOfInbreeding(0, 0.5, 0),
		() => effectiveSizeFromRate(0),
		() => effectiveSizeFromRate(-0.1),
		() => effectiveSizeFromInbreeding([0.1], []),
		() => effectiveSizeFromKinship([0.1], []),
		() => inbreedingAhead(0, 1),
		() => diversityAhead(1.2, 10, 1),
		() => sizeToKeepDiversity(1, 100, 1),
		() => differenceBetweenRooms(10, 1.1)
	])
		expect(wrong, String(wrong)).toThrow(RangeError);
});
