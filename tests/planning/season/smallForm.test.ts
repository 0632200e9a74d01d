/** One line, one male a room and nothing else to weigh: the season's plan is then the plan of partners. */
import loadHighs from 'highs';
import { expect, it } from 'vitest';
import { chanceFrom } from '#planning/chance.ts';
import { choosePartners } from '#planning/choosePartners.ts';
import type { PartnersAsked } from '#planning/partners.ts';
import { bagKey } from '#planning/season/bagKey.ts';
import { planSeason } from '#planning/season/planSeason.ts';
import type { SeasonProblem } from '#planning/season/season.ts';

const solver = await loadHighs();

/** Rooms that each draw on three unrelated founders, so that their kinships can be true ones. */
function randomRooms(seed: number): PartnersAsked {
	const chance = chanceFrom(seed);
	const rooms = 2 + chance.below(5);
	const mixes = Array.from({ length: rooms }, () => {
		const parts = [1 + chance.below(50), chance.below(50), chance.below(50)];
		const sum = parts.reduce((a, b) => a + b, 0);
		return parts.map((part) => part / sum);
	});
	return {
		males: mixes.map(() => 1 + chance.below(4)),
		theta: mixes.map((one) => mixes.map((other) => one.reduce((sum, p, i) => sum + 0.6 * p * other[i]!, 0))),
		bagsOutMax: mixes.map(() => chance.below(3)),
		bagsInMax: mixes.map(() => Math.min(1, chance.below(5))),
		forbidden: chance.below(2) ? [[0, 1]] : [],
		maxIncomingKinship: chance.below(2) ? 0.25 : 1,
		lambdaGlobal: [0, 0.1, 1][chance.below(3)]!
	};
}

function asSeason(asked: PartnersAsked): SeasonProblem {
	const { males, theta, maxIncomingKinship } = asked;
	const exactly = (kinship: number) => ({ expected: kinship, least: kinship, greatest: kinship });
	const problem: SeasonProblem = {
		rooms: males.map((_, i) => ({
			...{ id: `room ${i}`, bagsOut: asked.bagsOutMax[i]!, bagsIn: asked.bagsInMax[i]! },
			...{ tanksFree: 1, isClosed: false, balance: 0 }
		})),
		lines: [
			{
				...{ id: 'line', holders: males.length, wantedHolders: 0 },
				kinship: [...theta, ...theta].map((row) => [...row, ...row])
			}
		],
		holdings: males.map((count, room) => ({
			...{ line: 0, room, males: count, females: 3, within: exactly(theta[room]![room]!), waiting: -1 }
		})),
		sources: males.map((_, room) => ({
			...{ id: `group ${room}`, line: 0, room, spare: { males: males.length, females: 0, unsexed: 0 } },
			...{ within: exactly(theta[room]![room]!), withFemales: theta[room]!.map(exactly) },
			...{ withMales: theta[room]!.map(exactly), withSources: theta[room]!.map(exactly), cameFrom: -1 }
		})),
		tripCost: males.map(() => males.map(() => 0)),
		...{ apart: [], outcrosses: [], banned: [], wishes: [] },
		weights: {
			...{ lambda: asked.lambdaGlobal, worstCase: 0, trip: 0, bag: 0, holder: 0, waiting: 0 },
			...{ closeMates: 0, sendBack: 0 }
		},
		...{ tooClose: 2, bagOfOneSex: 1, bagOfUnsexed: 2 },
		foundingBag: { males: 1, females: 1, unsexed: 2 }
	};
	const isBanned = (from: number, to: number) =>
		theta[from]![to]! >= maxIncomingKinship || asked.forbidden.some(([a, b]) => a === from && b === to);
	const one = { males: 1, females: 0, unsexed: 0 };
	const banned = males.flatMap((_, from) =>
		males.flatMap((__, to) =>
			isBanned(from, to) ? [bagKey(problem, { gives: [{ source: from, fish: one }], holding: to })] : []
		)
	);
	return { ...problem, banned };
}

it('one line and one male a room: as good as the plan of partners, 150 seeded clubs', () => {
	let moved = 0;
	for (let seed = 1; seed <= 150; seed++) {
		const asked = randomRooms(seed);
		const partners = choosePartners(asked, solver, 20);
		const plan = planSeason(frozen(asSeason(asked)), { solver, seconds: 20 });
		expect(plan.isProven, `seed ${seed}`).toBe(true);
		// The season sums over rooms what partners take the mean of.
		expect(plan.figures.objective / asked.males.length, `seed ${seed}`).toBeCloseTo(partners.objective, 9);
		expect(plan.figures.meanAfter).toBeGreaterThanOrEqual(0);
		moved += plan.bags.length;
	}
	expect(moved).toBeGreaterThan(100);
});

/** Frozen all the way down: planning changes nothing that it was given. */
function frozen<T>(value: T): T {
	if (typeof value === 'object' && value !== null && !Object.isFrozen(value)) {
		Object.freeze(value);
		for (const part of Object.values(value)) frozen(part);
	}
	return value;
}
