/** How fast inbreeding goes up, beside closed forms; and what others published, beside their abstracts. */
import { describe, expect, test } from 'vitest';
import { groupKinship } from '#genetics/groups/groupKinship.ts';
import { rateToCome } from '#planning/ahead/rateToCome.ts';
import { simulateAhead } from '#planning/ahead/simulateAhead.ts';
import type { StrategyAhead } from '#planning/ahead/strategyAhead.ts';
import { publishedRings } from '#ui/ahead/publishedRings.ts';

function last(rooms: number, ofOneSex: number, exchange: StrategyAhead['exchange'], futures: number) {
	const names = Array.from({ length: rooms }, (_, i) => `room ${i}`);
	const line = {
		table: groupKinship(
			names.flatMap((room) =>
				['m', 'f'].map((sex) => ({ kind: 'founders' as const, unit: `${room} ${sex}`, count: ofOneSex }))
			)
		),
		rooms: names.map((room) => ({
			...{ room, house: room, takesPart: true, fathers: ofOneSex, mothers: ofOneSex },
			...{ males: [`${room} m`], females: [`${room} f`] }
		})),
		losses: { lost: 0, refilled: 0 }
	};
	const strategy: StrategyAhead = { exchange, breeders: 'random', malesMoved: 1, every: 1 };
	return simulateAhead(line, [strategy], { generations: 20, futures, seed: 29 })[0]!.at(-1)!;
}

describe('without swaps', () => {
	test.each([2, 4, 6])(
		'%i males and as many females: as the two sexes of Wright 1931, seed 29',
		(ofOneSex) => {
			// Wright 1931, Genetics 16:97: P'' = P' - (P' / Ne) + P / (2 Ne) for what is left P, 1 / Ne = 1 / 4m + 1 / 4f.
			const Ne = 2 * ofOneSex;
			const left = 1 - 1 / Ne;
			const kept = (left + Math.sqrt(left ** 2 + 2 / Ne)) / 2;
			const { rate } = last(8, ofOneSex, 'none', 400);
			expect(Math.abs(rate!.mean - (1 - kept))).toBeLessThan(0.04 * (1 - kept));
			expect(rate!.low).toBeLessThan(rate!.mean);
			expect(rate!.high).toBeGreaterThan(rate!.mean);
		}
	);
});

test('a ring slows it down, and every future of a ring of pairs has the same rate', () => {
	expect(last(6, 4, 'ring', 60).rate!.mean).toBeLessThan(0.6 * last(6, 4, 'none', 60).rate!.mean);
	const { rate } = last(4, 1, 'ring', 3);
	expect(rate!.high - rate!.low).toBeLessThan(1e-12);
	expect(rate!.mean).toBeCloseTo(rate!.low, 12);
});

test('nothing is left to lose: no rate', () => {
	expect(rateToCome([1, 1], [1, 1], 3)).toBeNull();
	expect(rateToCome([], [], 3)).toBeNull();
});

test('published figures are those of the abstracts', () => {
	// Windig & Kaal 2008, Animal 2:1733: without exchange > 1.5 % a year, both rotations 0.16 % a year on average.
	// Windig, Verweij & Oldenbroek 2019, J. Anim. Breed. Genet. 136:51, doi 10.1111/jbg.12371: 0.18 % by formula and
	// 0.12 % simulated for a generation; real flocks 0.29 % by markers, 0.41 % by heterozygosity.
	expect(publishedRings.map(({ without, ring, each }) => [without, ring, each])).toEqual([
		['more than 1.5', '0.16', 'a year'],
		[null, '0.12 to 0.18', 'a generation'],
		[null, '0.29 to 0.41', 'a generation']
	]);
});
