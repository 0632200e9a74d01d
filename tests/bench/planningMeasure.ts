/** What the planning bench measures, for Node and for a browser's worker alike. Times in ms. */
import type { Highs } from 'highs';
import type { GroupEvent } from '#genetics/groups/event.ts';
import { groupKinship } from '#genetics/groups/groupKinship.ts';
import { simulateAhead } from '#planning/ahead/simulateAhead.ts';
import { planSeason } from '#planning/season/planSeason.ts';
import { seasonBags } from '#planning/season/possibleBags.ts';
import { quickPlan } from '#planning/season/quickPlan.ts';
import type { SeasonPlan, SeasonProblem } from '#planning/season/season.ts';
import type { Measured, Prepared } from './geneticsMeasure.ts';
import { benchSeason, type SeasonShape } from './planningSeason.ts';

/** Names of all tasks with what each makes ready; the solver comes from whoever runs it. */
export const planningTasks: Readonly<Record<string, (solver: Highs) => Prepared>> = {
	'12 rooms, 5 lines': (solver) => seasonOf({ rooms: 12, lines: 5, groups: 85, seed: 12 }, solver),
	'40 rooms, 12 lines': (solver) => seasonOf({ rooms: 40, lines: 12, groups: 200, seed: 40 }, solver),
	futures: () => futures()
};

const secondsToProve = 10;
const quickRuns = 9;
const editRuns = 5;

function seasonOf(shape: SeasonShape, solver: Highs): Prepared {
	const problem = benchSeason(shape);
	const bags = seasonBags(problem);
	const { rooms, lines } = shape;
	const name = `${rooms} rooms, ${lines} lines`;
	const on = `${name}, ${problem.sources.length} groups to give, ${problem.holdings.length} holdings, ${bags.length} possible bags; bred from four pairs a line over five generations (seed ${shape.seed})`;
	return {
		on,
		run() {
			const first = timed(() => quickPlan(problem, seasonBags(problem)));
			const again = Array.from({ length: quickRuns }, () =>
				timed(() => quickPlan(problem, seasonBags(problem)))
			);
			const proof = timed(() => planSeason(problem, { solver, seconds: secondsToProve }));
			const edits = editsOf(problem, proof.value).slice(0, editRuns);
			const planned = edits.map(({ edited }) =>
				timed(() => planSeason(edited, { solver, seconds: secondsToProve }))
			);
			const quick = edits.map(({ edited }) => timed(() => quickPlan(edited, seasonBags(edited))));
			return [
				measured(
					`first usable plan, ${name}`,
					`first ${name}`,
					again,
					`${first.value.length} bags`,
					first.ms
				),
				measured(`proven best plan, ${name}`, `proven ${name}`, [proof], proofWords(proof.value)),
				measured(
					`planned again after one edit, first usable plan, ${name}`,
					`edit usable ${name}`,
					quick,
					`${quick.length} edits: a bag taken out of the plan and forbidden`
				),
				measured(
					`planned again after one edit, proven, ${name}`,
					`edit ${name}`,
					planned,
					`${planned.filter(({ value }) => value.isProven).length} of ${planned.length} proven`
				)
			];
		}
	};
}

/** One bag taken out by hand and forbidden, all others kept: the rest is planned again. */
function editsOf(problem: SeasonProblem, { bags }: SeasonPlan): { edited: SeasonProblem }[] {
	return bags.map((out) => ({
		edited: {
			...problem,
			banned: [out.key],
			wishes: [
				...problem.wishes,
				...bags
					.filter((bag) => bag !== out)
					.map(({ key }) => ({ id: `keep ${key}`, wish: 'bag' as const, key }))
			]
		}
	}));
}

function proofWords({ figures, bound, isProven, bags }: SeasonPlan): string {
	const gap = figures.objective - bound;
	const how = isProven ? 'proven' : `not proven after ${secondsToProve} s, ${gap.toFixed(4)} above the bound`;
	return `${bags.length} bags, ${figures.trips.length} trips, mean inbreeding ${figures.meanBefore.toFixed(3)} to ${figures.meanAfter.toFixed(3)}; ${how}`;
}

const playedFutures = 10_000;
const futureRooms = 8;
const generations = 20;

function futures(): Prepared {
	const rooms = Array.from({ length: futureRooms }, (_, i) => `room ${i}`);
	const events = rooms.flatMap((room) =>
		['males', 'females'].map((sex): GroupEvent => ({ kind: 'founders', unit: `${room}/${sex}`, count: 3 }))
	);
	const line = {
		table: groupKinship(events),
		rooms: rooms.map((room) => ({
			...{ room, males: [`${room}/males`], females: [`${room}/females`] },
			...{ fathers: 3, mothers: 3, house: room, takesPart: true }
		})),
		losses: { lost: 0.1, refilled: 0.3 }
	};
	const ways = [
		['ring', 'random'],
		['leastRelated', 'random'],
		['leastRelated', 'even']
	] as const;
	return {
		on: `${playedFutures.toLocaleString('en')} futures of ${futureRooms} rooms of three males and three females, ${generations} generations, rooms lose the line and get it back`,
		run: () =>
			ways.map(([exchange, breeders]) => {
				const strategy = { exchange, breeders, malesMoved: 1, every: 1 };
				const played = timed(
					() => simulateAhead(line, [strategy], { generations, futures: playedFutures, seed: 20 })[0]!
				);
				const last = played.value.at(-1)!;
				const what = `${playedFutures.toLocaleString('en')} futures, ${exchange}, ${breeders}`;
				const result = `inbreeding ${last.inbreeding?.mean.toFixed(3) ?? 'none'}, lost in ${(100 * last.lost).toFixed(1)} of 100`;
				return measured(what, `futures ${exchange} ${breeders}`, [played], result);
			})
	};
}

interface Timed<T> {
	readonly ms: number;
	readonly value: T;
}

function timed<T>(work: () => T): Timed<T> {
	const start = performance.now();
	const value = work();
	return { ms: performance.now() - start, value };
}

function measured(
	what: string,
	name: string,
	runs: readonly Timed<unknown>[],
	result: string,
	first: number | null = null
): Measured {
	const times = runs.map(({ ms }) => ms).sort((a, b) => a - b);
	return {
		...{ what, name, first, result, runs: times.length },
		...{ median: times[times.length >> 1]!, least: times[0]!, greatest: times.at(-1)! }
	};
}
