import type { GroupEvent } from '../groups/event.ts';
import type { GroupQuestion } from '../groups/groupFigure.ts';
import { groupKinship } from '../groups/groupKinship.ts';
import { eventsBehind } from './eventsBehind.ts';
import { search, stepsOf, unitsOf, workOf, type Step } from './rangeSearch.ts';
import type { RangeLimits } from './kinshipRanges.ts';

/** An open event, and what it would bring to settle it. */
export interface WorthSettling {
	/** Its place in the list of events. */
	readonly place: number;
	/** How much narrower the range would be on average, if we knew; 0 to 1. */
	readonly narrows: number;
}

/**
 * Broods to settle: of which broods should the parents be found out first, to make this figure surer?
 *
 * For each open event behind the question: how wide is the range once it is settled one way or another, as a mean
 * with the weights of its ways, against how wide it is now? All combinations are tried where they are few;
 * otherwise each event alone is, with bounds for the others.
 * Source: own choice; the expected width of what remains open.
 * Cost: as `kinshipRanges` for one question; beyond the limits as many bounds as there are ways.
 *
 * @param events as for `groupKinship`
 * @param question about its units
 * @param limits as for `kinshipRanges`; beyond `mostWork` only the first open events are looked at
 * @returns the events that would narrow the range, the most first
 * @throws RangeError when the events do not fit or the question cannot be answered
 * @example
 * broodsToSettle([{ kind: 'founders', unit: 'a', count: 2 }], { ask: 'inbreeding', units: ['a'] }) // => []
 */
export function broodsToSettle(
	events: readonly GroupEvent[],
	question: GroupQuestion,
	limits: RangeLimits = {}
): WorthSettling[] {
	const { mostCombinations = 4096, mostWork = 2e7 } = limits;
	// Tells what does not fit, before parts of it are taken.
	groupKinship(events);
	const steps = stepsOf(eventsBehind(events, unitsOf(question)));
	const open = steps.filter((step) => step.open !== null);
	const combinations = open.reduce((product, step) => product * step.open!.ways.length, 1);
	const all = new Set(open.map(({ place }) => place));
	const few = combinations <= mostCombinations && workOf(steps, all, [question]) <= mostWork;
	const widths = few ? widthsTogether(steps, open, question) : widthsApart(steps, open, question, mostWork);
	const now = widths.now;
	return widths.settled
		.map(({ step, of }) => {
			const then = step.open!.ways.reduce((sum, { weight }, k) => sum + weight * of[k]!, 0);
			return { place: step.place, narrows: now - then };
		})
		.filter(({ narrows }) => narrows > 1e-9)
		.sort((a, b) => b.narrows - a.narrows || a.place - b.place);
}

interface Widths {
	readonly now: number;
	/** For each open event the width of the range in each of its ways. */
	readonly settled: readonly { readonly step: Step; readonly of: readonly number[] }[];
}

class Span {
	least = Infinity;
	greatest = -Infinity;
	take(least: number, greatest: number): void {
		if (least < this.least) this.least = least;
		if (greatest > this.greatest) this.greatest = greatest;
	}
	get width(): number {
		return this.greatest - this.least;
	}
}

function widthsTogether(steps: readonly Step[], open: readonly Step[], question: GroupQuestion): Widths {
	const whole = new Span();
	const spans = open.map((step) => step.open!.ways.map(() => new Span()));
	search(steps, new Set(open.map(({ place }) => place)), [question], (ways, [least], [greatest]) => {
		whole.take(least!, greatest!);
		ways.forEach((way, i) => spans[i]![way]!.take(least!, greatest!));
	});
	return {
		now: whole.width,
		settled: open.map((step, i) => ({ step, of: spans[i]!.map((span) => span.width) }))
	};
}

function widthsApart(
	steps: readonly Step[],
	open: readonly Step[],
	question: GroupQuestion,
	mostWork: number
): Widths {
	const whole = new Span();
	search(steps, new Set(), [question], (_, [least], [greatest]) => whole.take(least!, greatest!));
	let left = mostWork;
	const settled = open.flatMap((step) => {
		const tried = new Set([step.place]);
		left -= 2 * workOf(steps, tried, [question]);
		if (left < 0) return [];
		const of: number[] = [];
		search(steps, tried, [question], (_, [least], [greatest]) => of.push(greatest! - least!));
		return [{ step, of }];
	});
	return { now: whole.width, settled };
}
