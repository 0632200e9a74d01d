import { describe, expect, test } from 'vitest';
import { groupKinship } from '#genetics/groups/groupKinship.ts';
import { inbreedingOf } from '#genetics/groups/inbreedingOf.ts';
import { kinshipBetween } from '#genetics/groups/kinshipBetween.ts';
import { kinshipWithin } from '#genetics/groups/kinshipWithin.ts';
import { randomFrom } from '#genetics/drop/randomFrom.ts';
import { droppedBetween, droppedInbreeding, droppedWithin, geneDrop } from './geneDrop.ts';
import { randomEvents } from './randomEvents.ts';

/** Drops for each history: the standard error of a kinship near 0.2 is then about 0.003. */
const drops = 4000;
const standardErrors = 4;

interface Compared {
	readonly what: string;
	readonly difference: number;
	readonly standardError: number;
}

/** Every figure of the table beside the mean of the drops. */
function compare(seed: number): Compared[] {
	const random = randomFrom(seed);
	const events = randomEvents(random, 12);
	const table = groupKinship(events);
	const sums = new Map<string, { expected: number; sum: number; squares: number }>();
	const add = (what: string, expected: () => number, value: number) => {
		let entry = sums.get(what);
		if (!entry) sums.set(what, (entry = { expected: expected(), sum: 0, squares: 0 }));
		entry.sum += value;
		entry.squares += value * value;
	};
	for (let drop = 0; drop < drops; drop++) {
		const fish = geneDrop(events, random);
		table.units.forEach((a, i) => {
			const ours = fish.get(a)!;
			add(`F ${a}`, () => inbreedingOf(table, [a]), droppedInbreeding(ours));
			if (ours.length > 1) add(`within ${a}`, () => kinshipWithin(table, [a]), droppedWithin(ours));
			for (const b of table.units.slice(0, i))
				add(`${a} and ${b}`, () => kinshipBetween(table, [a], [b]), droppedBetween(ours, fish.get(b)!));
		});
	}
	return [...sums].map(([what, { expected, sum, squares }]) => {
		const mean = sum / drops;
		const standardError = Math.sqrt(Math.max(0, squares / drops - mean * mean) / (drops - 1));
		return { what, difference: mean - expected, standardError };
	});
}

describe('group kinship agrees with genes dropped through explicit fish (MacCluer et al. 1986)', () => {
	const seeds = Array.from({ length: 12 }, (_, i) => 1001 + i);
	const all = new Map<number, Compared[]>();
	test.each(seeds)('random history, seed %i', (seed) => {
		const figures = compare(seed);
		all.set(seed, figures);
		const off = figures.filter(
			({ difference, standardError }) => Math.abs(difference) > standardErrors * standardError + 1e-9
		);
		expect(off, JSON.stringify(randomEvents(randomFrom(seed), 12))).toEqual([]);
	});

	test('the differences are spread as chance spreads them', () => {
		const z = [...all.values()]
			.flat()
			.filter(({ standardError }) => standardError > 0)
			.map(({ difference, standardError }) => difference / standardError);
		const mean = z.reduce((sum, value) => sum + value, 0) / z.length;
		const deviation = Math.sqrt(z.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (z.length - 1));
		expect(z.length).toBeGreaterThan(1000);
		// Figures of one history go together, so the mean strays more than independent ones would.
		expect(Math.abs(mean)).toBeLessThan(0.3);
		expect(deviation).toBeGreaterThan(0.8);
		expect(deviation).toBeLessThan(1.2);
	});

	test('the drop would tell one unknown father from several', () => {
		// If the reference could not see the difference, agreeing with it would mean nothing.
		const random = randomFrom(7);
		const history = (draw: 'one' | 'several') => [
			...['a', 'b', 'd'].map((unit) => ({ kind: 'founders' as const, unit, count: 1 })),
			{
				kind: 'spawn' as const,
				fathers: { from: ['a', 'b'].map((unit) => ({ unit, weight: 0.5 })), draw },
				mothers: { from: [{ unit: 'd', weight: 1 }], draw: 'one' as const },
				young: [{ unit: 'fry', count: 6 }]
			}
		];
		const mean = (draw: 'one' | 'several') => {
			let sum = 0;
			for (let i = 0; i < drops; i++) sum += droppedWithin(geneDrop(history(draw), random).get('fry')!);
			return sum / drops;
		};
		expect(mean('one') - mean('several')).toBeGreaterThan(0.04);
	});
});
