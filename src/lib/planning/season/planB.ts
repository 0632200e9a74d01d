import type { Highs } from 'highs';
import { planSeason } from './planSeason.ts';
import { seasonBags } from './possibleBags.ts';
import { quickPlan } from './quickPlan.ts';
import type { PossibleBag, SeasonProblem, SeasonWish } from './season.ts';
import { givingRooms } from './traffic.ts';

/** What may go otherwise than planned: one bag is refused, or a room drops out with all of its bags. */
export type PlanBCase =
	{ readonly if: 'refused'; readonly bag: string } | { readonly if: 'dropsOut'; readonly room: string };

export interface PlanBAnswer {
	readonly case: PlanBCase;
	/** All bags of the best plan then, by key: those that stay, and what comes in place of those that do not. */
	readonly keys: readonly string[];
	/** True = the solver has shown that nothing better exists; false = it may. */
	readonly isProven: boolean;
	/** Worked out by the quick way alone. */
	readonly isQuick: boolean;
}

export interface PlanBBy {
	/** Null = the quick way alone. */
	readonly solver: Highs | null;
	/** For each case, above 0. */
	readonly seconds: number;
	/** Called with the answers so far, and how many of them the solver has looked at. */
	readonly tell?: ((answers: readonly PlanBAnswer[], solved: number) => void) | undefined;
}

/**
 * Plan B: what is the best answer if this bag is refused, or if this room drops out, for each bag and room of a plan?
 *
 * Every other bag stays. A refused bag rules out the same fish for the same room; a room that gives nothing but the
 * refused bag gives nothing else either, as after a real no. First all cases by `quickPlan`, then each by `planSeason`.
 *
 * Source: own choice of the cases. Cost: bags and rooms of the plan times `planSeason` of a problem that is mostly
 * settled.
 *
 * @param plan the bags of the plan
 * @returns one answer for each bag in the order of the plan, then one for each of its rooms by id
 */
export function planB(
	problem: SeasonProblem,
	plan: readonly PossibleBag[],
	{ solver, seconds, tell }: PlanBBy
): PlanBAnswer[] {
	const cases = planBCases(problem, plan);
	const answers = cases.map((one): PlanBAnswer => {
		const then = problemThen(problem, plan, one);
		return { case: one, keys: keysOf(quickPlan(then, seasonBags(then))), isProven: false, isQuick: true };
	});
	tell?.([...answers], 0);
	if (!solver) return answers;
	for (const [i, one] of cases.entries()) {
		const found = planSeason(problemThen(problem, plan, one), { solver, seconds });
		answers[i] = { case: one, keys: keysOf(found.bags), isProven: found.isProven, isQuick: false };
		tell?.([...answers], i + 1);
	}
	return answers;
}

const keysOf = (bags: readonly PossibleBag[]) => bags.map(({ key }) => key).sort();

function planBCases(problem: SeasonProblem, plan: readonly PossibleBag[]): PlanBCase[] {
	const rooms = new Set(plan.flatMap((bag) => roomsOf(problem, bag)));
	return [
		...plan.map(({ key }) => ({ if: 'refused', bag: key }) as const),
		...[...rooms]
			.map((room) => problem.rooms[room]!.id)
			.sort()
			.map((room) => ({ if: 'dropsOut', room }) as const)
	];
}

const roomsOf = (problem: SeasonProblem, bag: PossibleBag) => [
	...givingRooms(problem, bag),
	problem.holdings[bag.holding]!.room
];

/** The problem once it has happened: what stands is firmly wished, before all other wishes. */
function problemThen(problem: SeasonProblem, plan: readonly PossibleBag[], one: PlanBCase): SeasonProblem {
	const refused = one.if === 'refused' ? plan.find(({ key }) => key === one.bag) : undefined;
	const isOut = (room: number) => one.if === 'dropsOut' && problem.rooms[room]!.id === one.room;
	const stays = plan.filter((bag) => bag !== refused && !roomsOf(problem, bag).some(isOut));
	const silent = new Set(
		refused
			? givingRooms(problem, refused).filter(
					(room) => !stays.some((bag) => roomsOf(problem, bag).includes(room))
				)
			: []
	);
	const ruledOut = refused
		? seasonBags(problem).filter(
				(bag) =>
					bag.holding === refused.holding &&
					bag.gives.some(({ source }) => refused.gives.some((give) => give.source === source))
			)
		: [];
	const locks = stays.map(({ key }): SeasonWish => ({ id: `bag:${key}`, wish: 'bag', key }));
	const wishes = problem.wishes.filter(
		(wish) =>
			wish.wish !== 'bag' && !(wish.wish === 'newBlood' && isOut(problem.holdings[wish.holding]!.room))
	);
	return {
		...problem,
		rooms: problem.rooms.map((room, at) =>
			isOut(at) || silent.has(at) ? { ...room, isClosed: true } : room
		),
		banned: [
			...new Set([...problem.banned, ...(refused ? [refused.key] : []), ...ruledOut.map(({ key }) => key)])
		].sort(),
		wishes: [...locks, ...wishes]
	};
}
