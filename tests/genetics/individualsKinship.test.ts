/** Every way to inbreeding and kinship gives the same, and what the field's books give. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { forgettingOrder } from '#genetics/individuals/forgettingOrder.ts';
import { inbreeding } from '#genetics/individuals/inbreeding.ts';
import { inbreedingByAncestors } from '#genetics/individuals/inbreedingByAncestors.ts';
import { inbreedingBySires } from '#genetics/individuals/inbreedingBySires.ts';
import { inbreedingByTable } from '#genetics/individuals/inbreedingByTable.ts';
import { kinship } from '#genetics/individuals/kinship.ts';
import { kinshipOfPairs } from '#genetics/individuals/kinshipOfPairs.ts';
import { kinshipRow } from '#genetics/individuals/kinshipRow.ts';
import { kinshipTimes } from '#genetics/individuals/kinshipTimes.ts';
import { orderedPedigree } from '#genetics/individuals/orderedPedigree.ts';
import type { FishRecord } from '#genetics/individuals/pedigree.ts';
import { expectClose } from '#tests/helpers/expectClose.ts';
import { randomFrom } from '#genetics/drop/randomFrom.ts';
import {
	backcrossSeries,
	fishOf,
	fullSibLine,
	fullSibSeries,
	halfSibSeries,
	ringOf,
	ringOfEight,
	ringRates,
	sixAnimals,
	sixAnimalsRelationship
} from '#tests/reference/pedigrees.ts';
import { slowKinship } from '#tests/reference/slowKinship.ts';
import { kinshipTolerance } from './builders.ts';
import { pedigrees, population, shuffled } from './pedigrees.ts';

const ways = { inbreeding, inbreedingByAncestors, inbreedingBySires, inbreedingByTable };

/** Inbreeding by id, in each of the ways. */
const allWays = (fish: readonly FishRecord[]) => {
	const pedigree = orderedPedigree(fish);
	return Object.entries(ways).map(([way, run]) => {
		const F = run(pedigree);
		return [way, (id: string) => F[pedigree.ids.indexOf(id)]!] as const;
	});
};

describe('series from the books', () => {
	test('brother and sister, generation after generation', () => {
		for (const [way, F] of allWays(shuffled(fullSibLine(12), 1)))
			fullSibSeries.forEach((value, t) =>
				expectClose(F(`a${t + 1}`), value, kinshipTolerance, `${way} ${t}`)
			);
	});

	test('young with the younger parent, again and again, as with sibs', () => {
		// Falconer & Mackay 1996 (from memory): the same series.
		const line = fishOf([
			['0', null, null],
			['1', null, null],
			...Array.from({ length: 12 }, (_, t) => [`${t + 2}`, `${t}`, `${t + 1}`] as const)
		]);
		for (const [way, F] of allWays(line))
			fullSibSeries
				.slice(0, 12)
				.forEach((value, t) => expectClose(F(`${t + 2}`), value, kinshipTolerance, `${way} ${t}`));
	});

	test('half sibs, generation after generation', () => {
		// One male in each generation for many females, his half sisters, each of which has her own line of mothers.
		const lines = 9;
		const rows: [string, string | null, string | null][] = [['m0', null, null]];
		for (let k = 0; k <= lines; k++) rows.push([`0 ${k}`, null, null]);
		for (let t = 1; t <= 8; t++) {
			rows.push([`m${t}`, `m${t - 1}`, `${t - 1} ${t}`]);
			for (let k = 0; k <= lines; k++) rows.push([`${t} ${k}`, `m${t - 1}`, `${t - 1} ${k}`]);
		}
		for (const [way, F] of allWays(fishOf(rows)))
			halfSibSeries.forEach((value, t) =>
				expectClose(F(`${t + 1} 0`), value, kinshipTolerance, `${way} ${t}`)
			);
	});

	test('daughter after daughter to one male', () => {
		const rows: [string, string | null, string | null][] = [
			['male', null, null],
			['0', null, null]
		];
		for (let t = 1; t <= 9; t++) rows.push([`${t}`, 'male', `${t - 1}`]);
		for (const [way, F] of allWays(fishOf(rows)))
			backcrossSeries.forEach((value, t) =>
				expectClose(F(`${t + 1}`), value, kinshipTolerance, `${way} ${t}`)
			);
	});

	test('rings in which each mates with both neighbours', () => {
		const ring = orderedPedigree(ringOf(8, 6));
		const F = inbreeding(ring);
		// Mates of generation t - 1 are neighbours, so generation t has the inbreeding that the list tells for t - 1.
		ringOfEight.slice(0, 6).forEach((value, t) => {
			const of = F.subarray((t + 1) * 8, (t + 2) * 8);
			expectClose(of.reduce((sum, one) => sum + one, 0) / 8, value, { abs: 5e-5 }, `generation ${t}`);
		});
		for (const [size, rate] of ringRates) {
			const long = inbreeding(orderedPedigree(ringOf(size, 300)));
			const at = (t: number) => 1 - long[t * size]!;
			// Far on, what is left falls by one factor; near 0 it would be lost in rounding.
			const t = Math.round(Math.min(290, 8 / rate));
			expectClose(1 - at(t + 1) / at(t), rate, { abs: 1e-6 }, `ring of ${size}`);
			expectClose(rate, Math.PI ** 2 / (2 * size + 4) ** 2, { rel: 0.07 }, `Kimura & Crow, ${size}`);
		}
	});

	test('six animals by every way to kinship', () => {
		const pedigree = orderedPedigree(sixAnimals);
		const F = inbreeding(pedigree);
		const place = (id: string) => pedigree.ids.indexOf(id);
		const table = kinship(pedigree);
		for (const [a, b, relationship] of sixAnimalsRelationship) {
			const half = relationship / 2;
			expectClose(table[place(a) * 6 + place(b)]!, half, kinshipTolerance);
			expectClose(kinshipRow(pedigree, F, place(a))[place(b)]!, half, kinshipTolerance);
			const pair = kinshipOfPairs(pedigree, F, Int32Array.of(place(b), place(a)));
			expectClose(pair[0]!, half, kinshipTolerance);
		}
	});

	test('relatives', () => {
		// Standard values, recomputed: Wright 1922.
		const family = fishOf([
			...['gf', 'gm', 'w', 'h', 'v'].map((id) => [id, null, null] as const),
			['s1', 'gf', 'gm'],
			['s2', 'gf', 'gm'],
			['half', 'gf', 'v'],
			['c1', 's1', 'w'],
			['c2', 'h', 's2'],
			['c1young', 'c1', 'v']
		]);
		const pedigree = orderedPedigree(family);
		const F = inbreeding(pedigree);
		for (const [a, b, value] of [
			['s1', 's2', 1 / 4],
			['gf', 's1', 1 / 4],
			['s1', 'half', 1 / 8],
			['s1', 'c2', 1 / 8],
			['c1', 'c2', 1 / 16],
			['c1young', 'c2', 1 / 32]
		] as const)
			expectClose(
				kinshipRow(pedigree, F, pedigree.ids.indexOf(a))[pedigree.ids.indexOf(b)]!,
				value,
				kinshipTolerance,
				`${a} ${b}`
			);
	});
});

const seed = 31;
describe.each([
	['of near parents', pedigrees(6)],
	['of far parents', pedigrees(60)],
	['with fish that are both parents', pedigrees(12, true)]
])('random pedigrees %s', (_, arbitrary) => {
	test(`all ways agree with the obvious recursion, whatever the order of records (seed ${seed})`, () => {
		fc.assert(
			fc.property(arbitrary, fc.nat(1000), (fish, order) => {
				const phi = slowKinship(fish);
				const pedigree = orderedPedigree(shuffled(fish, order));
				const n = pedigree.ids.length;
				const F = inbreeding(pedigree);
				const table = kinship(pedigree);
				const single = kinship(pedigree, new Float32Array(n * n + 3).fill(9));
				for (const [way, run] of Object.entries(ways))
					run(pedigree).forEach((value, i) =>
						expectClose(value, 2 * phi(pedigree.ids[i]!, pedigree.ids[i]!) - 1, kinshipTolerance, way)
					);
				const all = Int32Array.from({ length: 2 * n * n }, (_, k) =>
					k % 2 ? (k >> 1) % n : Math.floor((k >> 1) / n)
				);
				const pairs = kinshipOfPairs(pedigree, F, all);
				for (let i = 0; i < n; i++) {
					const row = kinshipRow(pedigree, F, i);
					for (let j = 0; j < n; j++) {
						const expected = phi(pedigree.ids[i]!, pedigree.ids[j]!);
						expectClose(table[i * n + j]!, expected, kinshipTolerance, 'table');
						expectClose(single[i * n + j]!, expected, { abs: 1e-6 }, 'single precision');
						expectClose(row[j]!, expected, kinshipTolerance, 'row');
						expectClose(pairs[i * n + j]!, expected, kinshipTolerance, 'pair');
						expect(table[i * n + j]).toBe(table[j * n + i]);
					}
				}
			}),
			{ seed, numRuns: 60 }
		);
	});
});

test('a table times a vector is the vector times the table', () => {
	const pedigree = population(400, 20, 3, 5);
	const n = 400;
	const table = kinship(pedigree);
	const random = randomFrom(6);
	const weights = Float64Array.from({ length: n }, () => random() - 0.3);
	const product = kinshipTimes(pedigree, inbreeding(pedigree), weights);
	for (let i = 0; i < n; i++) {
		let sum = 0;
		for (let j = 0; j < n; j++) sum += table[i * n + j]! * weights[j]!;
		expectClose(product[i]!, sum, kinshipTolerance);
	}
});

describe('60 years of one population', () => {
	const pedigree = population(3000, 60, 3, 8);
	const F = inbreeding(pedigree);

	test('all ways to inbreeding agree, in whatever order the fish stand', () => {
		expect(Math.max(...F)).toBeGreaterThan(0.15);
		const byAncestors = inbreedingByAncestors(pedigree);
		const bySires = inbreedingBySires(pedigree);
		const byTable = inbreedingByTable(pedigree);
		F.forEach((value, i) => {
			expectClose(byAncestors[i]!, value, kinshipTolerance);
			expectClose(bySires[i]!, value, kinshipTolerance);
			expectClose(byTable[i]!, value, kinshipTolerance);
		});
		const records = pedigree.ids.map((id, i): FishRecord => {
			const parent = (at: number) => (at < 0 ? null : pedigree.ids[at]!);
			return { id, mother: parent(pedigree.mother[i]!), father: parent(pedigree.father[i]!) };
		});
		for (const other of [[...records].reverse(), shuffled(records, 9)]) {
			const again = orderedPedigree(other);
			const G = inbreeding(again);
			G.forEach((value, i) => expectClose(value, F[Number(again.ids[i])]!, kinshipTolerance));
		}
	});

	test('few rows are remembered at one time', () => {
		// 50 fish a year that breed for 3 years: far fewer than 3000.
		expect(forgettingOrder(pedigree).most).toBeLessThan(250);
	});

	test('thousands of pairs, near in time and far apart, are those of the rows', () => {
		const random = randomFrom(10);
		const late = Int32Array.from({ length: 8000 }, () => 2800 + Math.floor(random() * 200));
		const far = Int32Array.from({ length: 600 }, () => Math.floor(random() * 3000));
		for (const pairs of [late, far]) {
			const found = kinshipOfPairs(pedigree, F, pairs);
			for (let k = 0; k < 300; k++)
				expectClose(found[k]!, kinshipRow(pedigree, F, pairs[2 * k]!)[pairs[2 * k + 1]!]!, kinshipTolerance);
		}
	});
});

test('nothing given is changed, and what does not fit is refused', () => {
	const pedigree = population(50, 5, 2, 3);
	const kept = structuredClone(pedigree);
	const F = inbreeding(pedigree);
	kinshipOfPairs(pedigree, F, Int32Array.of(1, 2));
	kinshipRow(pedigree, F, 49);
	expect(pedigree).toEqual(kept);
	expect(() => kinshipRow(pedigree, F, 50)).toThrow(RangeError);
	expect(() => kinshipTimes(pedigree, F, new Float64Array(3))).toThrow(RangeError);
	expect(() => kinshipOfPairs(pedigree, F, Int32Array.of(1))).toThrow(RangeError);
	expect(() => kinshipOfPairs(pedigree, F, Int32Array.of(1, 50))).toThrow(RangeError);
	expect(() => kinship(pedigree, new Float32Array(50))).toThrow(RangeError);
	const wrong = { ids: ['young', 'old'], mother: Int32Array.of(1, -1), father: Int32Array.of(-1, -1) };
	for (const run of [...Object.values(ways), forgettingOrder]) expect(() => run(wrong)).toThrow(RangeError);
});
