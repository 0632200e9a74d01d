import type { GroupEvent, UnitId } from '../groups/event.ts';
import { groupFigure, type GroupQuestion } from '../groups/groupFigure.ts';
import { groupKinship } from '../groups/groupKinship.ts';
import { eventsBehind } from './eventsBehind.ts';
import { openBehind } from './openBehind.ts';
import type { Way } from './openEvents.ts';
import { extremeTable, search, stepsOf, unitsOf, workOf, type Step } from './rangeSearch.ts';

/** A figure with everything that it could be, going by what is recorded. */
export interface KinshipRange {
	/** With the weights and guesses as they stand. */
	readonly expected: number;
	readonly least: number;
	readonly greatest: number;
	/** True when some way of the open events gives the least and some way the greatest; false when both are bounds. */
	readonly exact: boolean;
	/** Places of the open events that the figure rests on. */
	readonly open: readonly number[];
	/** Founders whose kinship is a guess, and that the figure rests on. */
	readonly assumed: readonly UnitId[];
	/** Ways that give the least, by place; empty when only a bound is known. */
	readonly leastWhen: ReadonlyMap<number, Way>;
	readonly greatestWhen: ReadonlyMap<number, Way>;
}

export interface RangeLimits {
	/** Combinations of ways that are all tried for one question; 4,096 if absent: twelve broods of two fathers. */
	readonly mostCombinations?: number;
	/** Numbers written and read in one call, about 5 ns each; 20 million if absent. */
	readonly mostWork?: number;
}

/** Sums of halves in another order end a little beside each other. */
const rounding = 1e-12;

interface Asked {
	readonly open: ReadonlySet<number>;
	readonly combinations: number;
	readonly questions: number[];
}

/**
 * Kinship ranges: what could these figures be, whichever of the possible parents it was?
 *
 * For each question only the events behind it are taken. Where the combinations of the ways of its open events are
 * few, all are tried and the range is exact: the recursion runs as a tree, so that what comes before an open event
 * is computed once. Where they are many, the recursion runs once with the least of all ways at every open event and
 * once with the greatest, after trying all ways of as many of them as the limits allow. Each step of the recursion
 * is a mean with weights of 0 or more, so the true range lies within; where a real combination reaches both ends,
 * the bound is exact and said to be. Founders that are assumed take part from 0 to the guess, or to their `atMost`.
 * Source: own derivation; interval arithmetic after Moore (1966), Interval Analysis (from memory).
 * Cost: O(combinations times new rows) within the limits, else O(units² times ways); many questions share a search.
 *
 * @param events as for `groupKinship`
 * @param questions about its units
 * @param limits on how much is tried; more is more often exact
 * @returns one range for each question, least <= expected <= greatest
 * @throws RangeError when the events do not fit or a question cannot be answered
 * @example
 * const fish = ['brother', 'stranger', 'sister'].map((unit) => ({ kind: 'founders', unit, count: 1 }));
 * const kin = { ...fish[2], related: [{ unit: 'brother', kinship: 0.25 }] };
 * const fathers = { from: [{ unit: 'brother', weight: 0.5 }, { unit: 'stranger', weight: 0.5 }], draw: 'one' };
 * const mothers = { from: [{ unit: 'sister', weight: 1 }], draw: 'one' };
 * const spawn = { kind: 'spawn', fathers, mothers, young: [{ unit: 'fry', count: 9 }] };
 * const [fry] = kinshipRanges([fish[0], fish[1], kin, spawn], [{ ask: 'inbreeding', units: ['fry'] }]);
 * [fry.least, fry.expected, fry.greatest, fry.exact] // => [0, 0.125, 0.25, true]
 */
export function kinshipRanges(
	events: readonly GroupEvent[],
	questions: readonly GroupQuestion[],
	limits: RangeLimits = {}
): KinshipRange[] {
	const { mostCombinations = 4096, mostWork = 2e7 } = limits;
	const table = groupKinship(events);
	const expected = questions.map((question) => groupFigure(table, question));
	const behind = openBehind(events);
	const rests = questions.map((question) => behind.of(unitsOf(question)));
	const ranges: KinshipRange[] = expected.map((value, q) => ({
		expected: value,
		least: value,
		greatest: value,
		exact: true,
		...rests[q]!,
		leastWhen: new Map(),
		greatestWhen: new Map()
	}));
	const uncertain = questions.flatMap((_, q) =>
		rests[q]!.open.length + rests[q]!.assumed.length > 0 ? [q] : []
	);

	const steps = (asked: readonly number[]) =>
		stepsOf(eventsBehind(events, new Set(asked.flatMap((q) => unitsOf(questions[q]!)))));
	let left = mostWork;
	const tooMany: number[] = [];
	for (const asked of together(uncertain, rests, behind.ways)) {
		const some = asked.questions.map((q) => questions[q]!);
		const all = asked.combinations <= mostCombinations ? steps(asked.questions) : null;
		const work = all ? workOf(all, asked.open, some) : Infinity;
		if (all === null || work > left) {
			tooMany.push(...asked.questions);
			continue;
		}
		left -= work;
		tryOut(ranges, asked.questions, questions, all, asked.open, true);
	}
	if (tooMany.length > 0) {
		const all = steps(tooMany);
		const some = tooMany.map((q) => questions[q]!);
		const rest = tooMany.flatMap((q) => rests[q]!.open);
		// Trying some of many makes bounds only a little narrower: a fifth of what is left is enough.
		const tried = worthTrying(all, some, rest, left / 5, mostCombinations);
		tryOut(ranges, tooMany, questions, all, tried, false);
		meetBounds(ranges, tooMany, questions, all);
	}
	return ranges;
}

/** Questions that one search answers: those whose open events are all among those of another. */
function together(
	uncertain: readonly number[],
	rests: readonly { readonly open: readonly number[] }[],
	ways: ReadonlyMap<number, number>
): Asked[] {
	const found: Asked[] = [];
	const most = [...uncertain].sort((a, b) => rests[b]!.open.length - rests[a]!.open.length || a - b);
	for (const q of most) {
		const open = rests[q]!.open;
		const wider = found.find((asked) => open.every((place) => asked.open.has(place)));
		if (wider) wider.questions.push(q);
		else {
			const combinations = open.reduce((product, place) => product * ways.get(place)!, 1);
			found.push({ open: new Set(open), combinations, questions: [q] });
		}
	}
	return found.sort((a, b) => a.combinations - b.combinations);
}

/** Open events to try one way after the other: those that most questions rest on, as far as the limits go. */
function worthTrying(
	steps: readonly Step[],
	questions: readonly GroupQuestion[],
	rests: readonly number[],
	mostWork: number,
	mostCombinations: number
): Set<number> {
	const times = new Map<number, number>();
	for (const place of rests) times.set(place, (times.get(place) ?? 0) + 1);
	const tried = new Set<number>();
	let combinations = 1;
	for (const [place] of [...times].sort((a, b) => b[1] - a[1] || a[0] - b[0])) {
		const step = steps.find((one) => one.place === place && one.open);
		if (!step?.open) continue;
		combinations *= step.open.ways.length;
		tried.add(place);
		// Both ends are computed, so the work is twice that of one table.
		if (combinations <= mostCombinations && 2 * workOf(steps, tried, questions) <= mostWork) continue;
		tried.delete(place);
		break;
	}
	return tried;
}

function tryOut(
	ranges: KinshipRange[],
	asked: readonly number[],
	questions: readonly GroupQuestion[],
	steps: readonly Step[],
	tried: ReadonlySet<number>,
	exact: boolean
): void {
	const places = steps.filter(({ place, open }) => open && tried.has(place));
	const when = (ways: readonly number[]): ReadonlyMap<number, Way> =>
		new Map(exact ? places.map(({ place, open }, i) => [place, open!.ways[ways[i]!]!]) : []);
	const found = asked.map(() => ({
		least: Infinity,
		greatest: -Infinity,
		low: [] as number[],
		high: [] as number[]
	}));
	search(
		steps,
		tried,
		asked.map((q) => questions[q]!),
		(ways, least, greatest) =>
			found.forEach((range, i) => {
				if (least[i]! < range.least - rounding) [range.least, range.low] = [least[i]!, [...ways]];
				if (greatest[i]! > range.greatest + rounding)
					[range.greatest, range.high] = [greatest[i]!, [...ways]];
			})
	);
	asked.forEach((q, i) => {
		const { least, greatest, low, high } = found[i]!;
		const { expected } = ranges[q]!;
		ranges[q] = {
			...ranges[q]!,
			least: Math.min(least, expected),
			greatest: Math.max(greatest, expected),
			exact,
			leastWhen: when(low),
			greatestWhen: when(high)
		};
	});
}

/** Says of bounds that a real combination reaches that they are the true ends. */
function meetBounds(
	ranges: KinshipRange[],
	asked: readonly number[],
	questions: readonly GroupQuestion[],
	steps: readonly Step[]
): void {
	const kinds = ['inbreeding', 'all'] as const;
	const low = kinds.map((kind) => extremeTable(steps, 'least', kind));
	const high = kinds.map((kind) => extremeTable(steps, 'greatest', kind));
	for (const q of asked) {
		const { least, greatest } = ranges[q]!;
		const exact =
			low.some((table) => groupFigure(table, questions[q]!) <= least + rounding) &&
			high.some((table) => groupFigure(table, questions[q]!) >= greatest - rounding);
		ranges[q] = { ...ranges[q]!, exact };
	}
}
