import { alleleRetentionEquivalents } from '#genetics/diversity/alleleRetentionEquivalents.ts';
import { droppedFigure } from '#genetics/drop/droppedFigure.ts';
import { dropGenes, type DroppedFish } from '#genetics/drop/dropGenes.ts';
import { genesKept } from '#genetics/drop/genesKept.ts';
import { randomFrom } from '#genetics/drop/randomFrom.ts';
import { spreadOf } from '#genetics/drop/spreadOf.ts';
import type { GroupEvent, UnitId } from '#genetics/groups/event.ts';
import type { Between } from './aheadByChance.ts';

/** Plain data that can be sent to another thread. */
export interface GenesAsk {
	/** As `lineEvents` gives them. */
	readonly events: readonly GroupEvent[];
	/** Units of the living fish, and how many they are. */
	readonly living: readonly (readonly [unit: UnitId, fish: number])[];
	/** Groups of founders with the expected share of the genes of the living. */
	readonly founders: readonly {
		readonly group: string;
		readonly units: readonly UnitId[];
		readonly share: number;
	}[];
	/** Share of parents that are not in the record, one number for each of them. */
	readonly outside: readonly number[];
}
export interface GenesByChance {
	readonly times: number;
	/** Which share of the founders' different genes is still there: on average, and in 19 of 20 tries. */
	readonly kept: Between & { readonly mean: number };
	/** The same by group of founders, on average. */
	readonly keptOf: ReadonlyMap<string, number>;
	/** Gene diversity of the living fish as chance may have made it, in 19 of 20 tries. */
	readonly diversity: Between;
	readonly retentionEquivalents: number;
}

/** Small fish have some 25 chromosomes, and the two ends of one are nearly unlinked; a part of them is enough here. */
const places = 25;
const leastTimes = 40;

/**
 * Genes by chance: how much of what the founders brought is still there, and how far may chance have led?
 *
 * Drops the founders' genes through the record many times; open parents, fish that left and genes are drawn each time
 * by their weights. So the interval holds both chance and what the record leaves open, as likely as it is.
 * Source: MacCluer, VandeBerg, Read & Ryder (1986), Zoo Biology 5:147; as `dropGenes`, `genesKept`.
 * Cost: O(times × fish × places).
 */
export function genesByChance(
	ask: GenesAsk & { readonly times: number; readonly seed: number },
	tell: (progress: { readonly done: number; readonly of: number; readonly soFar?: GenesByChance }) => void
): GenesByChance {
	const { events, living, times, seed } = ask;
	const random = randomFrom(seed);
	const every = Math.max(1, Math.round(times / 50));
	const kept: number[] = [];
	const diversity: number[] = [];
	const sums = new Map(ask.founders.map(({ group }) => [group, { share: 0, genes: 0 }]));
	const answer = (): GenesByChance => {
		const { mean, low, high } = spreadOf(kept);
		const spread = spreadOf(diversity);
		return {
			...{ times: kept.length, kept: { mean, low, high } },
			keptOf: new Map([...sums].map(([group, { share }]) => [group, share / kept.length])),
			diversity: { low: spread.low, high: spread.high },
			retentionEquivalents: equivalents(ask, sums, kept.length)
		};
	};
	for (let played = 1; played <= times; played++) {
		const came = new Map<UnitId, readonly DroppedFish[]>();
		const dropped = dropGenes(events, random, places, (unit, fish) => came.set(unit, [...fish]));
		const fish = living.flatMap(([unit, count]) => {
			const there = dropped.get(unit)!;
			return Array.from({ length: count }, (_, i) => there[i % there.length]!);
		});
		const founders = new Map(
			ask.founders.map(({ group, units }) => [group, units.flatMap((unit) => came.get(unit)!)])
		);
		const { all, of } = genesKept(founders, fish);
		kept.push(all);
		for (const [group, { share, genes }] of of) {
			const sum = sums.get(group)!;
			sums.set(group, { share: sum.share + share, genes: sum.genes + genes });
		}
		diversity.push(1 - droppedFigure(new Map([['', fish]]), { ask: 'withSelf', units: [''] }));
		if (played % every !== 0) continue;
		const enough = played >= leastTimes && played % (5 * every) === 0;
		tell({ done: played, of: times, ...(enough && { soFar: answer() }) });
	}
	return answer();
}

/**
 * Founders that were brothers and sisters count as the fish that they came from: as many as have their genes. A fish
 * of no known parents counts as a founder of which all is kept that it gave.
 */
function equivalents(
	{ founders, outside }: GenesAsk,
	sums: ReadonlyMap<string, { readonly share: number; readonly genes: number }>,
	times: number
): number {
	const shares: number[] = [...outside];
	const kept: number[] = outside.map(() => 1);
	for (const { group, share } of founders) {
		const sum = sums.get(group)!;
		const fish = Math.max(1, Math.round(sum.genes / times / places / 2));
		for (let i = 0; i < fish; i++) {
			shares.push(share / fish);
			kept.push(sum.share / times);
		}
	}
	return alleleRetentionEquivalents(shares, kept);
}
