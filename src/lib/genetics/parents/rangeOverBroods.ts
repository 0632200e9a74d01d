import type { Settled, UncertainBrood } from './uncertainBroods.ts';

/** A figure with what it could be. */
export interface FigureRange {
	/** With the weights as they stand. */
	readonly expected: number;
	readonly least: number;
	readonly greatest: number;
	/** What gives the least and the greatest; empty where that is the expectation itself. */
	readonly leastWhen: ReadonlyMap<number, Settled>;
	readonly greatestWhen: ReadonlyMap<number, Settled>;
	/** False when broods that are uncertain together may take the figure further than shown. */
	readonly exact: boolean;
}

/**
 * Range over uncertain broods: what could this figure be, if we knew the parents of one more brood?
 *
 * The figure is computed once with the stated weights, then again for every choice of parents of one brood while
 * all others keep their weights. Exact when one brood is uncertain; with more, settling several at once may reach
 * further, and `exact` is false.
 * Source: our own choice. Kinship is linear in the weights of each brood alone, so that its least and greatest
 * over one brood's weights lie where one candidate takes all; a stated mix of several lies between or beyond,
 * which is why the expectation takes part.
 * Cost: one rebuild for each choice of each brood, and one more.
 *
 * @param broods from `uncertainBroods`, those that matter to the figure
 * @param measure rebuilds with these broods settled and returns the figure; an empty map is the expectation
 * @returns least <= expected <= greatest
 * @throws RangeError when `measure` returns what is not a number
 * @example
 * rangeOverBroods([], () => 0.125).greatest // => 0.125
 */
export function rangeOverBroods(
	broods: readonly UncertainBrood[],
	measure: (settled: ReadonlyMap<number, Settled>) => number
): FigureRange {
	const none: ReadonlyMap<number, Settled> = new Map();
	const figure = (settled: ReadonlyMap<number, Settled>) => {
		const value = measure(settled);
		if (Number.isNaN(value))
			throw new RangeError('rangeOverBroods requires a figure that is a number, got NaN');
		return value;
	};
	const expected = figure(none);
	let [least, greatest, leastWhen, greatestWhen] = [expected, expected, none, none];
	for (const { event, choices } of broods)
		for (const choice of choices) {
			const settled = new Map([[event, choice]]);
			const value = figure(settled);
			if (value < least) [least, leastWhen] = [value, settled];
			if (value > greatest) [greatest, greatestWhen] = [value, settled];
		}
	return { expected, least, greatest, leastWhen, greatestWhen, exact: broods.length <= 1 };
}
