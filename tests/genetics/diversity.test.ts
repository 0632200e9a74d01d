import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { alleleRetention } from '#genetics/diversity/alleleRetention.ts';
import { alleleRetentionEquivalents } from '#genetics/diversity/alleleRetentionEquivalents.ts';
import { founderContributions } from '#genetics/diversity/founderContributions.ts';
import { founderEquivalents } from '#genetics/diversity/founderEquivalents.ts';
import { founderGenomeEquivalents } from '#genetics/diversity/founderGenomeEquivalents.ts';
import { founderTargets } from '#genetics/diversity/founderTargets.ts';
import { geneDiversity } from '#genetics/diversity/geneDiversity.ts';
import { kinshipValues } from '#genetics/diversity/kinshipValues.ts';
import { meanKinships } from '#genetics/diversity/meanKinships.ts';
import { optimalContributions } from '#genetics/diversity/optimalContributions.ts';
import { inbreeding } from '#genetics/individuals/inbreeding.ts';
import { kinship } from '#genetics/individuals/kinship.ts';
import { orderedPedigree } from '#genetics/individuals/orderedPedigree.ts';
import type { Pedigree } from '#genetics/individuals/pedigree.ts';
import { expectClose } from '#tests/helpers/expectClose.ts';
import { randomFrom } from '#genetics/drop/randomFrom.ts';
import { fishOf } from '#tests/reference/pedigrees.ts';
import { kinshipTolerance } from './builders.ts';
import { pedigrees, population } from './pedigrees.ts';

/** Means over many fish: sums of thousands of numbers lose a little more than single ones. */
const meanTolerance = { abs: 1e-10 };

/** One pair and its young. */
const pairWith = (young: number): Pedigree =>
	orderedPedigree(
		fishOf([
			['m', null, null],
			['f', null, null],
			...Array.from({ length: young }, (_, k) => [`${k}`, 'f', 'm'] as const)
		])
	);
const lastOf = (pedigree: Pedigree, count: number) =>
	Array.from({ length: count }, (_, k) => pedigree.ids.length - count + k);

describe('a pair with n young: the two kinds of genome equivalents are not equal', () => {
	// Derived for this project: MK = 1/4 + 1/(4n); r = 1 - 2^-n. Lacy's own worked pedigree was not at hand.
	test.each([1, 2, 3, 4])('n = %i', (n) => {
		const pedigree = pairWith(n);
		const living = lastOf(pedigree, n);
		const { mean } = meanKinships(pedigree, inbreeding(pedigree), living);
		expectClose(founderGenomeEquivalents(mean), (2 * n) / (n + 1), kinshipTolerance);
		const { founders, shares, unknownParents } = founderContributions(pedigree, living);
		expect(founders.length).toBe(2);
		expect(unknownParents.length).toBe(0);
		expectClose(founderEquivalents(shares), 2, kinshipTolerance);
		const drops = 20_000;
		const kept = alleleRetention(pedigree, living, randomFrom(n), drops).founders;
		const r = 1 - 2 ** -n;
		// The drop agrees with the chance that a gene is in none of n young.
		for (const found of kept) expectClose(found, r, { abs: 4 * Math.sqrt((r * (1 - r)) / drops) });
		expectClose(alleleRetentionEquivalents(shares, [r, r]), 2 * (1 - 2 ** -n), kinshipTolerance);
	});
});

const seed = 41;
test(`mean kinships, values and contributions are those of the whole table (seed ${seed})`, () => {
	fc.assert(
		fc.property(pedigrees(8), fc.array(fc.nat(59), { minLength: 1 }), (fish, chosen) => {
			const pedigree = orderedPedigree(fish);
			const n = pedigree.ids.length;
			const living = [...new Set(chosen.map((place) => place % n))];
			const F = inbreeding(pedigree);
			const table = kinship(pedigree);
			const { mean, of } = meanKinships(pedigree, F, living);
			const weights = living.map((_, k) => 1 + (k % 3));
			const total = weights.reduce((sum, weight) => sum + weight, 0);
			const values = kinshipValues(pedigree, F, living, weights);
			let all = 0;
			living.forEach((a, k) => {
				const row = living.map((b) => table[a * n + b]!);
				const mk = row.reduce((sum, phi) => sum + phi, 0) / living.length;
				expectClose(of[k]!, mk, kinshipTolerance);
				const kv = row.reduce((sum, phi, l) => sum + (phi * weights[l]!) / total, 0);
				expectClose(values[k]!, kv, kinshipTolerance);
				all += mk / living.length;
			});
			expectClose(mean, all, kinshipTolerance);
			const { founders, shares, unknownParents } = founderContributions(pedigree, living);
			const sum = [...shares, ...unknownParents].reduce((sum, share) => sum + share, 0);
			expectClose(sum, 1, kinshipTolerance);
			// A founder's share is twice its mean kinship with the living, as long as no founder is among its relatives.
			founders.forEach((founder, k) => {
				const mk = living.reduce((sum, a) => sum + table[founder * n + a]!, 0) / living.length;
				expectClose(shares[k]!, 2 * mk, kinshipTolerance);
			});
			const fe = founderEquivalents([...shares, ...unknownParents]);
			expect(fe).toBeGreaterThanOrEqual(founderGenomeEquivalents(mean) - 1e-9);
			expect(geneDiversity(mean)).toBe(1 - mean);
		}),
		{ seed, numRuns: 100 }
	);
});

describe('a population of 20 years', () => {
	const pedigree = population(400, 20, 2, 21);
	const living = lastOf(pedigree, 40);
	const F = inbreeding(pedigree);
	const { mean } = meanKinships(pedigree, F, living);

	test('1 - mean kinship is the diversity of dropped genes (MacCluer et al. 1986)', () => {
		// Each founder is followed by itself: the mean kinship is the chance that two draws have one founder gene.
		const drops = 3000;
		const random = randomFrom(22);
		let sum = 0;
		let squares = 0;
		const genes = new Int32Array(2 * 400);
		for (let drop = 0; drop < drops; drop++) {
			for (let i = 0; i < 400; i++)
				for (const [side, parents] of [pedigree.mother, pedigree.father].entries()) {
					const parent = parents[i]!;
					genes[2 * i + side] = parent < 0 ? 2 * i + side : genes[2 * parent + (random() < 0.5 ? 0 : 1)]!;
				}
			const times = new Map<number, number>();
			for (const place of living)
				for (const side of [0, 1])
					times.set(genes[2 * place + side]!, (times.get(genes[2 * place + side]!) ?? 0) + 1);
			const alike = [...times.values()].reduce((all, count) => all + (count / 80) ** 2, 0);
			sum += alike;
			squares += alike * alike;
		}
		const found = sum / drops;
		const error = Math.sqrt((squares / drops - found * found) / drops);
		expect(error).toBeLessThan(0.002);
		expectClose(found, mean, { abs: 4 * error });
	});

	test('allele retention: equivalents lie between genomes and founders, targets sum to 1', () => {
		const { shares, unknownParents } = founderContributions(pedigree, living);
		const kept = alleleRetention(pedigree, living, randomFrom(23), 2000);
		expect(kept.founders.length).toBe(shares.length);
		expect(kept.unknownParents.length).toBe(unknownParents.length);
		const all = [...shares, ...unknownParents];
		const lacy = alleleRetentionEquivalents(all, [...kept.founders, ...kept.unknownParents]);
		expect(lacy).toBeGreaterThan(founderGenomeEquivalents(mean));
		expect(lacy).toBeLessThan(founderEquivalents(all));
		expectClose(
			founderTargets(kept.founders).reduce((sum, share) => sum + share, 0),
			1,
			meanTolerance
		);
		const again = alleleRetention(pedigree, living, randomFrom(23), 2000);
		expect(again).toEqual(kept);
	});
});

describe('optimal contributions', () => {
	/** The conditions of Karush, Kuhn and Tucker for least c'Kc on shares: the proof that nothing is better. */
	function expectBest(table: Float64Array): void {
		const { contributions, meanKinship, gap } = optimalContributions(table);
		const n = contributions.length;
		expectClose(
			contributions.reduce((sum, share) => sum + share, 0),
			1,
			meanTolerance
		);
		for (let i = 0; i < n; i++) {
			expect(contributions[i]).toBeGreaterThanOrEqual(0);
			let towards = 0;
			for (let j = 0; j < n; j++) towards += table[i * n + j]! * contributions[j]!;
			expect(towards).toBeGreaterThan(meanKinship - 1e-9);
			if (contributions[i]! > 0) expectClose(towards, meanKinship, { abs: 1e-9 });
		}
		expect(gap).toBeLessThan(1e-9);
	}

	test('unrelated founders share evenly', () => {
		const table = new Float64Array(25);
		for (let i = 0; i < 5; i++) table[i * 6] = 0.5;
		const { contributions, meanKinship } = optimalContributions(table);
		contributions.forEach((share) => expectClose(share, 0.2, meanTolerance));
		expectClose(meanKinship, 0.1, meanTolerance);
	});

	test('founders are better than their young, who get nothing', () => {
		const { contributions } = optimalContributions(kinship(pairWith(6)));
		expectClose(contributions[0]!, 0.5, meanTolerance);
		expectClose(contributions[1]!, 0.5, meanTolerance);
	});

	test('fish that are the same in every respect', () => {
		// Two draws of one group: rows alike in all, as of clones; the table has no inverse.
		expectBest(Float64Array.of(0.5, 0.5, 0.2, 0.5, 0.5, 0.2, 0.2, 0.2, 0.6));
	});

	test.each([51, 52, 53])('the conditions of an optimum hold (seed %i)', (seed) => {
		const pedigree = population(300, 15, 3, seed);
		const whole = kinship(pedigree);
		const living = lastOf(pedigree, 80);
		const table = new Float64Array(80 * 80);
		living.forEach((a, i) => living.forEach((b, j) => (table[i * 80 + j] = whole[a * 300 + b]!)));
		expectBest(table);
		// And against chance: no random shares do better.
		const random = randomFrom(seed);
		const { meanKinship } = optimalContributions(table);
		for (let k = 0; k < 50; k++) {
			const raw = living.map(() => -Math.log(1 - random()));
			const total = raw.reduce((sum, share) => sum + share, 0);
			let mean = 0;
			for (let i = 0; i < 80; i++)
				for (let j = 0; j < 80; j++) mean += (table[i * 80 + j]! * raw[i]! * raw[j]!) / total ** 2;
			expect(mean).toBeGreaterThan(meanKinship);
		}
	});
});

test('what does not fit is refused', () => {
	const pedigree = pairWith(2);
	const F = inbreeding(pedigree);
	const always = () => 0.5;
	for (const wrong of [
		() => meanKinships(pedigree, F, []),
		() => meanKinships(pedigree, F, [1, 1]),
		() => founderContributions(pedigree, []),
		() => founderContributions(pedigree, [2, 2]),
		() => founderEquivalents([0.5, 0.4]),
		() => founderEquivalents([1.5, -0.5]),
		() => founderGenomeEquivalents(0),
		() => geneDiversity(1.1),
		() => alleleRetention(pedigree, [], always, 3),
		() => alleleRetention(pedigree, [1], always, 0.5),
		() => alleleRetentionEquivalents([1], []),
		() => alleleRetentionEquivalents([1], [NaN]),
		() => founderTargets([0, 0]),
		() => kinshipValues(pedigree, F, [0, 1], [1]),
		() => kinshipValues(pedigree, F, [0, 1], [0, 0]),
		() => optimalContributions(new Float64Array(0)),
		() => optimalContributions(Float64Array.of(0.5, 0.2)),
		() => optimalContributions(Float64Array.of(0))
	])
		expect(wrong, String(wrong)).toThrow(RangeError);
});
