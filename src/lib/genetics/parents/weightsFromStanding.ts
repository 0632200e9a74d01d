import type { ParentShare, UnitId } from '../groups/event.ts';

/** A parent as a keeper tells of it. */
export interface StandingParent {
	readonly unit: UnitId;
	readonly standing: 'seen' | 'likely' | 'possible' | 'ruledOut';
	/** The keeper's own weight, 0 or more; if one parent has one, only own weights count. */
	readonly weight?: number;
}

/** What the better-known parents take while others are not ruled out. Our own choice. */
const shareOfBetter = 0.8;
/** What an outside fish takes when not all who could be the parent are listed. Our own choice. */
const shareOfUnlisted = 0.1;

/**
 * Weights from standing: how sure are we of each parent, as numbers for the recursion?
 *
 * Seen, likely and possible are three steps. The best step that somebody has takes 0.8 of what is left, in equal
 * parts, or all of it when nobody stands lower; ruled out takes nothing. If not everybody who could be the parent
 * is listed, one unknown outside fish takes 0.1 of the whole first, except where the parents were seen and nobody
 * else is possible. Own weights replace this: what they lack of 1 is the outside fish's if there may be one,
 * otherwise they are scaled to 1.
 * Source: our own choice, no source; a keeper who knows better gives weights.
 * Cost: O(parents).
 *
 * @param parents fathers, or mothers, of one brood, each unit once
 * @param everyoneListed whether nobody else can be the parent
 * @returns weights that sum to 1, none of them 0, in the order given; the outside fish (`unit: null`) last
 * @throws RangeError when a weight is negative or not a number, or a unit stands twice
 * @example
 * weightsFromStanding([{ unit: 'red', standing: 'seen' }], false) // => [{ unit: 'red', weight: 1 }]
 * weightsFromStanding([], false) // => [{ unit: null, weight: 1 }]
 */
export function weightsFromStanding(
	parents: readonly StandingParent[],
	everyoneListed: boolean
): ParentShare[] {
	if (new Set(parents.map(({ unit }) => unit)).size < parents.length)
		throw new RangeError(
			`weightsFromStanding requires each unit once, got ${parents.map(({ unit }) => unit).join(', ')}`
		);
	for (const { weight } of parents)
		if (weight !== undefined && !(weight >= 0 && weight < Infinity))
			throw new RangeError(`weightsFromStanding requires weights of 0 or more, got ${weight}`);
	const own = parents.some(({ weight }) => weight !== undefined);
	const weights = own ? ownWeights(parents, everyoneListed) : stepWeights(parents, everyoneListed);
	const outside = 1 - weights.reduce((sum, weight) => sum + weight, 0);
	const shares: ParentShare[] = parents
		.map(({ unit }, i) => ({ unit, weight: weights[i]! }))
		.filter(({ weight }) => weight > 0);
	// Less than this is rounding: weights that sum to 1 leave no outside fish.
	if (outside > 1e-9) shares.push({ unit: null, weight: outside });
	return shares;
}

function stepWeights(parents: readonly StandingParent[], everyoneListed: boolean): number[] {
	const steps = (['seen', 'likely', 'possible'] as const)
		.map((step) => ({ step, parents: parents.filter(({ standing }) => standing === step).length }))
		.filter(({ parents }) => parents > 0);
	const onlySeen = steps.length === 1 && steps[0]!.step === 'seen';
	let left = everyoneListed || onlySeen ? 1 : 1 - shareOfUnlisted;
	const each = new Map<StandingParent['standing'], number>();
	steps.forEach(({ step, parents }, i) => {
		const taken = i < steps.length - 1 ? left * shareOfBetter : left;
		each.set(step, taken / parents);
		left -= taken;
	});
	return parents.map(({ standing }) => each.get(standing) ?? 0);
}

function ownWeights(parents: readonly StandingParent[], everyoneListed: boolean): number[] {
	const weights = parents.map(({ weight, standing }) => (standing === 'ruledOut' ? 0 : (weight ?? 0)));
	const total = weights.reduce((sum, weight) => sum + weight, 0);
	if (total === 0) return weights;
	return total > 1 || everyoneListed ? weights.map((weight) => weight / total) : weights;
}
