/** Plans against full enumeration: nothing better exists, whatever the limits. */
import loadHighs from 'highs';
import { describe, expect, test } from 'vitest';
import { chanceFrom } from '#planning/chance.ts';
import { choosePartners } from '#planning/choosePartners.ts';
import { partnersFigures, possibleBags, type PartnersAsked } from '#planning/partners.ts';

const solver = await loadHighs();

function randomClub(seed: number): PartnersAsked {
	const chance = chanceFrom(seed);
	const share = () => chance.below(1000) / 1000;
	const rooms = 2 + chance.below(4);
	const each = <T>(make: () => T) => Array.from({ length: rooms }, make);
	const theta = each(() => each(() => 0));
	for (let i = 0; i < rooms; i++)
		for (let j = 0; j <= i; j++) theta[i]![j] = theta[j]![i] = i === j ? 0.05 + 0.4 * share() : 0.3 * share();
	return {
		males: each(() => chance.below(5)),
		theta,
		bagsOutMax: each(() => chance.below(3)),
		bagsInMax: each(() => Math.min(1, chance.below(5))),
		forbidden: chance.below(2) ? [[0, 1]] : [],
		maxIncomingKinship: chance.below(2) ? 0.25 : 1,
		tripCost: each(() => each(() => chance.below(5))),
		tripBudget: chance.below(2) ? chance.below(8) : undefined,
		lambdaGlobal: [0, 0.1, 2 * share()][chance.below(3)]!
	};
}

/** The least objective of all choices that keep the limits, tried one by one. */
function leastOfAll(asked: PartnersAsked): number {
	const bags = possibleBags(asked);
	const given = asked.males.map(() => 0);
	let least = Number.POSITIVE_INFINITY;
	const tryFrom = (room: number, donor: number[], cost: number): void => {
		if (room === asked.males.length) {
			least = Math.min(least, partnersFigures(asked, donor).objective);
			return;
		}
		tryFrom(room + 1, [...donor, -1], cost);
		for (const bag of bags) {
			if (bag.to !== room || given[bag.from]! >= asked.bagsOutMax[bag.from]!) continue;
			if (asked.tripBudget !== undefined && cost + bag.cost > asked.tripBudget) continue;
			given[bag.from]!++;
			tryFrom(room + 1, [...donor, bag.from], cost + bag.cost);
			given[bag.from]!--;
		}
	};
	tryFrom(0, [], 0);
	return least;
}

describe('the same objective as trying every choice', () => {
	test.each(Array.from({ length: 10 }, (_, i) => i))('seeds in thirties, number %i', (tens) => {
		for (let seed = tens * 30; seed < tens * 30 + 30; seed++) {
			const asked = randomClub(seed);
			const plan = choosePartners(asked, solver, 20);
			expect(plan.optimal).toBe(true);
			expect(plan.objective).toBeCloseTo(leastOfAll(asked), 12);
		}
	});

	test('limits are kept', () => {
		for (let seed = 1000; seed < 1100; seed++) {
			const asked = randomClub(seed);
			const { donor } = choosePartners(asked, solver, 20);
			const bags = possibleBags(asked);
			const chosen = donor.flatMap((from, to) => (from < 0 ? [] : [{ from, to }]));
			for (const { from, to } of chosen)
				expect(bags.some((bag) => bag.from === from && bag.to === to)).toBe(true);
			for (const [room, most] of asked.bagsOutMax.entries())
				expect(chosen.filter(({ from }) => from === room).length).toBeLessThanOrEqual(most);
			const cost = chosen.reduce((sum, { from, to }) => sum + asked.tripCost![from]![to]!, 0);
			expect(cost).toBeLessThanOrEqual(asked.tripBudget ?? Number.POSITIVE_INFINITY);
		}
	});
});

test('two rooms, worked by hand', () => {
	// Own example: each room has two males; within 0.25 and 0.125, between 0.05. Both gain by a male from the other:
	// (0.5 x 0.25 + 0.5 x 0.05 + 0.5 x 0.125 + 0.5 x 0.05) / 2 = 0.11875.
	const asked: PartnersAsked = {
		males: [2, 2],
		theta: [
			[0.25, 0.05],
			[0.05, 0.125]
		],
		bagsOutMax: [1, 1],
		bagsInMax: [1, 1],
		forbidden: [],
		maxIncomingKinship: 0.25,
		lambdaGlobal: 0
	};
	const plan = choosePartners(asked, solver, 20);
	expect(plan.donor).toEqual([1, 0]);
	expect(plan.meanNextInbreeding).toBeCloseTo(0.11875, 14);
	// Origins stay half and half, so the whole line's kinship is the mean of all four.
	expect(plan.globalKinship).toBeCloseTo((0.25 + 0.125 + 0.05 + 0.05) / 4, 14);
	expect(choosePartners({ ...asked, forbidden: [[0, 1]] }, solver, 20).donor).toEqual([1, -1]);
	expect(choosePartners({ ...asked, maxIncomingKinship: 0.05 }, solver, 20).donor).toEqual([-1, -1]);
});

test('any units of trip costs and any weight: the same plan', () => {
	for (let seed = 2000; seed < 2040; seed++) {
		const asked = { ...randomClub(seed), tripBudget: 5, lambdaGlobal: 0 };
		const plan = choosePartners(asked, solver, 20);
		for (const unit of [1e-30, 1e30]) {
			const tripCost = asked.tripCost!.map((row) => row.map((cost) => cost * unit));
			const other = choosePartners({ ...asked, tripCost, tripBudget: 5 * unit }, solver, 20);
			expect(other.objective, `seed ${seed}`).toBeCloseTo(plan.objective, 12);
		}
		// So much weight on the whole line's kinship that nothing else counts.
		const whole = choosePartners({ ...asked, lambdaGlobal: 1e6 }, solver, 20);
		const huge = choosePartners({ ...asked, lambdaGlobal: 1e30 }, solver, 20);
		expect(huge.optimal).toBe(true);
		expect(huge.globalKinship, `seed ${seed}`).toBeCloseTo(whole.globalKinship, 8);
	}
});

test('a bag that costs more than all trips may is none', () => {
	const asked = randomClub(7);
	const dear = { ...asked, tripCost: asked.tripCost!.map((row) => row.map(() => 1e-12)), tripBudget: 0 };
	expect(choosePartners(dear, solver, 20).donor.every((from) => from === -1)).toBe(true);
	expect(possibleBags({ ...dear, tripBudget: 1e-12 }).length).toBeGreaterThan(0);
});
