import type { UnitId } from '../groups/event.ts';
import type { GroupQuestion } from '../groups/groupFigure.ts';
import type { DroppedFish } from './dropGenes.ts';

/**
 * Dropped figure: what is the answer to a question about groups in one drop of genes?
 *
 * Counts copies of genes: two draws with replacement are alike with chance sum p², draws of two sides with sum p q,
 * over the frequencies of the founder genes, as a mean over the places of the genome.
 * Source: MacCluer, VandeBerg, Read & Ryder (1986), Zoo Biology 5:147.
 * Cost: O(fish asked about × places).
 *
 * @param dropped from `dropGenes`
 * @param question about its units
 * @returns 0 to 1: what `groupFigure` gives on average over many drops
 * @throws RangeError when a unit is not known, or two different fish are asked for and there is one
 * @example
 * const wild = dropGenes([{ kind: 'founders', unit: 'wild', count: 4 }], randomFrom(1));
 * droppedFigure(wild, { ask: 'withSelf', units: ['wild'] }) // => 0.125
 */
export function droppedFigure(
	dropped: ReadonlyMap<UnitId, readonly DroppedFish[]>,
	question: GroupQuestion
): number {
	const fishOf = (units: readonly UnitId[]) =>
		units.flatMap((unit) => {
			const fish = dropped.get(unit);
			if (!fish) throw new RangeError(`droppedFigure requires known units, got ${JSON.stringify(unit)}`);
			return fish;
		});
	if (question.ask === 'between') return alike(fishOf(question.these), fishOf(question.those));
	const fish = fishOf(question.units);
	if (question.ask === 'inbreeding') return homozygous(fish);
	if (question.ask === 'withSelf') return alike(fish, fish);
	const n = fish.length;
	if (n < 2) throw new RangeError(`droppedFigure requires two different fish, got ${n}`);
	return (n * alike(fish, fish) - (1 + homozygous(fish)) / 2) / (n - 1);
}

/** Share of fish and places at which both genes are copies of one. */
function homozygous(fish: readonly DroppedFish[]): number {
	const places = fish[0]!.length / 2;
	let sum = 0;
	for (const one of fish)
		for (let place = 0; place < places; place++) sum += Number(one[place] === one[places + place]);
	return sum / (fish.length * places);
}

/** Chance that a gene of these and a gene of those, at the same place, are copies of one. */
function alike(these: readonly DroppedFish[], those: readonly DroppedFish[]): number {
	const places = these[0]!.length / 2;
	let sum = 0;
	for (let place = 0; place < places; place++) {
		const times = new Map<number, number>();
		for (const fish of these)
			for (const gene of [fish[place]!, fish[places + place]!]) times.set(gene, (times.get(gene) ?? 0) + 1);
		for (const fish of those) sum += (times.get(fish[place]!) ?? 0) + (times.get(fish[places + place]!) ?? 0);
	}
	return sum / (4 * these.length * those.length * places);
}
