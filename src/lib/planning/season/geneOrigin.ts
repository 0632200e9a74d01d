import { isEmpty, sharesOf } from './shares.ts';
import type { PossibleBag, SeasonProblem } from './season.ts';

/** Where the next parents' genes of one line come from: weights over its holdings, then its sources. */
export interface LineOrigin {
	readonly line: number;
	/** Holdings of the line, with and without fish, by their place in the problem. */
	readonly holdings: readonly number[];
	readonly kinship: SeasonProblem['lines'][number]['kinship'];
	/** If nothing is moved: each holding with fish the same. */
	readonly stay: Float64Array;
	/** The place of each source of the problem in `stay`; -1 = of another line. */
	readonly placeOfSource: Int32Array;
	readonly placeOfHolding: Int32Array;
}

/** A sparse change: places and amounts. */
export interface OriginChange {
	readonly places: readonly number[];
	readonly amounts: readonly number[];
	/** A founding bag also takes over the part that the rooms with fish stood for: this much of `stay` goes. */
	readonly stayLess: number;
}

/**
 * Whose genes are in the next parents of a line, all rooms together?
 *
 * Every holding counts the same. Half of a share of newcomers of one sex comes from their source. A holding that gets no
 * fish at all leaves its part to those that have some, so that the weights always sum to 1 and are linear in the bags.
 * Fish of another line bring none of this line's genes: their part is left out.
 *
 * Source: Ballou & Lacy 1995 for c'Kc; the part of rooms without fish is our own choice.
 */
export function lineOrigin(problem: SeasonProblem, line: number): LineOrigin {
	const holdings = problem.holdings.flatMap((holding, h) => (holding.line === line ? [h] : []));
	const placeOfHolding = new Int32Array(problem.holdings.length).fill(-1);
	const placeOfSource = new Int32Array(problem.sources.length).fill(-1);
	for (const [place, h] of holdings.entries()) placeOfHolding[h] = place;
	let size = holdings.length;
	for (const [s, source] of problem.sources.entries()) if (source.line === line) placeOfSource[s] = size++;
	const stay = new Float64Array(size);
	const withFish = holdings.filter((h) => !isEmpty(problem.holdings[h]!));
	for (const h of withFish) stay[placeOfHolding[h]!] = 1 / withFish.length;
	return { line, holdings, kinship: problem.lines[line]!.kinship, stay, placeOfHolding, placeOfSource };
}

/** What a bag changes. */
export function originChange(problem: SeasonProblem, origin: LineOrigin, bag: PossibleBag): OriginChange {
	const part = 1 / origin.holdings.length;
	const places: number[] = [];
	const amounts: number[] = [];
	const founds = isEmpty(problem.holdings[bag.holding]!);
	const { parts } = sharesOf(problem, bag.holding, bag.gives);
	const share = founds ? part : (bag.share / 2) * part;
	for (const [i, { source }] of bag.gives.entries()) {
		const place = origin.placeOfSource[source]!;
		if (place < 0 || parts[i] === 0) continue;
		places.push(place);
		amounts.push(share * parts[i]!);
	}
	if (!founds) {
		places.push(origin.placeOfHolding[bag.holding]!);
		amounts.push(-share);
	}
	return { places, amounts, stayLess: founds ? part : 0 };
}

/** c'Kc. */
export function kinshipOfOrigin({ kinship }: LineOrigin, c: Float64Array): number {
	let all = 0;
	for (let i = 0; i < c.length; i++) {
		if (c[i] === 0) continue;
		const row = kinship[i]!;
		let sum = 0;
		for (let j = 0; j < c.length; j++) sum += row[j]! * c[j]!;
		all += c[i]! * sum;
	}
	return all;
}
