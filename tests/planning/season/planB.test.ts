/** Plan B against every plan there is: once a bag is refused or a room is out, and all else stays, nothing is better. */
import loadHighs from 'highs';
import { describe, expect, it } from 'vitest';
import { bagsOfKeys } from '#planning/season/bagsOfKeys.ts';
import { planB, type PlanBAnswer } from '#planning/season/planB.ts';
import { planSeason } from '#planning/season/planSeason.ts';
import { seasonBags } from '#planning/season/possibleBags.ts';
import type { PossibleBag, SeasonProblem } from '#planning/season/season.ts';
import { seasonFigures } from '#planning/season/seasonFigures.ts';
import { seasonStops } from '#planning/season/seasonStops.ts';
import { everyPlan } from '#tests/reference/everyPlan.ts';
import { smallSeason } from './smallSeason.ts';

const solver = await loadHighs();
const seconds = 60;
const seeds = Array.from({ length: 60 }, (_, i) => i + 1);

/** Seasons whose best plan moves something. */
const seasons = seeds.flatMap((seed) => {
	const problem: SeasonProblem = { ...smallSeason(seed), wishes: [] };
	const { bags } = planSeason(problem, { solver, seconds });
	return bags.length ? [{ seed, problem, bags }] : [];
});
const roomsOf = ({ sources, holdings, rooms }: SeasonProblem, { gives, holding }: PossibleBag) =>
	[...gives.map(({ source }) => sources[source]!.room), holdings[holding]!.room].map((at) => rooms[at]!.id);
const goes = (problem: SeasonProblem, one: PossibleBag, answer: PlanBAnswer) =>
	answer.case.if === 'refused'
		? one.key === answer.case.bag
		: roomsOf(problem, one).includes(answer.case.room);

/** The best that is left by trying all: what stays stays, and nothing of what was refused or is out moves. */
function bestLeft(problem: SeasonProblem, plan: readonly PossibleBag[], answer: PlanBAnswer): number {
	const stays = plan.filter((one) => !goes(problem, one, answer));
	const refused = plan.find((one) => answer.case.if === 'refused' && goes(problem, one, answer));
	const out = new Set(
		answer.case.if === 'dropsOut'
			? [answer.case.room]
			: roomsOf(problem, refused!)
					.slice(0, -1)
					.filter((room) => stays.every((one) => !roomsOf(problem, one).includes(room)))
	);
	const isRefused = (one: PossibleBag) =>
		refused?.holding === one.holding &&
		one.gives.some(({ source }) => refused.gives.some((give) => give.source === source));
	const then: SeasonProblem = {
		...problem,
		rooms: problem.rooms.map((room) => (out.has(room.id) ? { ...room, isClosed: true } : room)),
		banned: [...problem.banned, ...seasonBags(problem).flatMap((one) => (isRefused(one) ? [one.key] : []))]
	};
	const plans = everyPlan(then, [
		...seasonBags(then),
		...stays.filter(({ key }) => !seasonBags(then).some((one) => one.key === key))
	]);
	const with_ = plans.filter(({ bags }) => stays.every(({ key }) => bags.some((one) => one.key === key)));
	return Math.min(...with_.map(({ figures }) => figures.objective));
}

describe(`plan B of ${seasons.length} seeded seasons`, () => {
	it('answers for each bag and each room of the plan, and for nothing else', () => {
		for (const { seed, problem, bags } of seasons) {
			const cases = planB(problem, bags, { solver: null, seconds }).map((one) => one.case);
			expect(cases, `season ${seed}`).toEqual([
				...bags.map(({ key }) => ({ if: 'refused', bag: key })),
				...[...new Set(bags.flatMap((bag) => roomsOf(problem, bag)))]
					.sort()
					.map((room) => ({ if: 'dropsOut', room }))
			]);
		}
	});

	it('nothing better exists while all else stays', () => {
		let replaced = 0;
		let waits = 0;
		for (const { seed, problem, bags } of seasons)
			for (const answer of planB(problem, bags, { solver, seconds })) {
				const name = `season ${seed} ${JSON.stringify(answer.case)}`;
				const then = bagsOfKeys(problem, answer.keys);
				expect(answer.isProven && !answer.isQuick, name).toBe(true);
				const reached = seasonFigures(problem, then).objective;
				expect(reached, name).toBeCloseTo(bestLeft(problem, bags, answer), 9);
				if (then.some(({ key }) => bags.every((one) => one.key !== key))) replaced++;
				else waits++;
			}
		// Both ends occur, or the seasons would not try them.
		expect(Math.min(replaced, waits)).toBeGreaterThan(10);
	});

	it('the quick way may be, keeps what stays, and leaves out what is refused', () => {
		for (const { seed, problem, bags } of seasons)
			for (const answer of planB(problem, bags, { solver: null, seconds })) {
				const name = `season ${seed} ${JSON.stringify(answer.case)}`;
				const then = bagsOfKeys(problem, answer.keys);
				const stops = seasonStops(problem, then).filter(({ stop }) => stop !== 'tooClose');
				expect(stops, name).toEqual([]);
				expect(
					then.filter((one) => goes(problem, one, answer)).map(({ key }) => key),
					name
				).toEqual([]);
				const stays = bags.filter((one) => !goes(problem, one, answer)).map(({ key }) => key);
				expect(answer.keys, name).toEqual(expect.arrayContaining(stays));
				expect([answer.isQuick, answer.isProven], name).toEqual([true, false]);
			}
	});

	it('tells the quick answers first, then each as it is solved', () => {
		const { problem, bags } = seasons[0]!;
		const told: number[][] = [];
		const found = planB(problem, bags, {
			...{ solver, seconds },
			tell: (answers, solved) => told.push([solved, answers.filter(({ isQuick }) => !isQuick).length])
		});
		expect(told).toEqual(Array.from({ length: found.length + 1 }, (_, i) => [i, i]));
	});
});
