import type { Weighing } from '#pedigree/figures/weighing.ts';
import { weighed } from '#pedigree/figures/weighing.ts';
import type { KinshipOfGroups } from '#pedigree/kinshipOfGroups.ts';
import type { Range } from '#planning/season/season.ts';
import type { ThingId } from '#records/entry.ts';

/** How often each unit of a line is drawn; the parts sum to 1. */
export type Draw = ReadonlyMap<number, number>;
/** Males and females of some groups, each a draw; fish not sexed are half of each. */
export interface Breeders {
	readonly males: Draw;
	readonly females: Draw;
	readonly maleFish: number;
	readonly femaleFish: number;
	/** Males and females alike; all fish where one sex is missing. */
	readonly both: Draw;
}

/** Fish whose forebears nobody has told are taken as cousins, and may be brother and sister: own choice. */
const unknown: Range = { expected: 1 / 16, least: 0, greatest: 1 / 4 };
const rounding = 1e-9;
/** More breeders of one sex than this are not kept by a room, however many young grow up in it: own choice. */
const mostBreeders = 10;

/** Mean kinship within one line, of draws from its units, with ranges. */
export class LineMeans {
	readonly kinship: KinshipOfGroups;
	/** Fish in each unit now. */
	readonly #fish = new Map<number, number>();
	readonly #unknownOrigin = new Map<ThingId, boolean>();

	constructor(kinship: KinshipOfGroups) {
		this.kinship = kinship;
	}

	breedersOf(groups: readonly ThingId[]): Breeders {
		const males = new Map<number, number>();
		const females = new Map<number, number>();
		for (const group of groups)
			for (const id of this.kinship.events.units.get(group) ?? [])
				for (const { unit, fish } of this.kinship.countedOf([id])) {
					this.#fish.set(unit, fish);
					if (id.endsWith('/males')) males.set(unit, fish);
					else if (id.endsWith('/females')) females.set(unit, fish);
					else if (fish === 1) females.set(unit, fish);
					else {
						males.set(unit, fish / 2);
						females.set(unit, fish / 2);
					}
				}
		const [maleFish, femaleFish] = [males, females].map((side) => Math.min(mostBreeders, sumOf(side))) as [
			number,
			number
		];
		const [he, she] = [shares(males), shares(females)];
		const both = !maleFish ? she : !femaleFish ? he : mixed(he, she);
		return { males: he, females: she, maleFish, femaleFish, both };
	}

	/** Mean kinship of two different fish, one of each draw. */
	range(these: Draw, those: Draw, groups: readonly ThingId[]): Range {
		if (these.size === 0 || those.size === 0) return { expected: 0, least: 0, greatest: 0 };
		const range = this.kinship.bounded(this.#weighing(these, those, false));
		return range.greatest < rounding && groups.some((group) => this.isUnknown(group)) ? unknown : range;
	}

	/** Mean kinship as expected, where a fish may be drawn twice. */
	twice(these: Draw, those: Draw): number {
		return weighed(this.kinship.table, this.#weighing(these, those, true));
	}

	/** Nobody has told where the first of these fish came from. */
	isUnknown(group: ThingId): boolean {
		let known = this.#unknownOrigin.get(group);
		if (known === undefined) {
			const { unknownOrigin } = this.kinship.events;
			known = [...this.kinship.forebearsOf(group).keys()].some((one) => unknownOrigin.has(one));
			this.#unknownOrigin.set(group, known);
		}
		return known;
	}

	/** The weightiest open thing behind a range, as the end of a sentence that begins with "because"; '' = none. */
	why(these: Draw, those: Draw): string {
		return these.size && those.size ? this.kinship.withWhy(this.#weighing(these, those, false)).why : '';
	}

	#weighing(these: Draw, those: Draw, mayBeSame: boolean): Weighing {
		const pairs: [number, number, number][] = [];
		const self: [number, number][] = [];
		const within: [number, number][] = [];
		for (const [a, p] of these)
			for (const [b, q] of those) {
				const weight = p * q;
				const fish = this.#fish.get(a) ?? 1;
				if (a !== b) pairs.push([a, b, weight]);
				else if (fish < 2) self.push([a, weight]);
				else if (!mayBeSame) within.push([a, weight]);
				else {
					self.push([a, weight / fish]);
					within.push([a, weight * (1 - 1 / fish)]);
				}
			}
		return { pairs, self, within };
	}
}

function sumOf(fish: ReadonlyMap<number, number>): number {
	return [...fish.values()].reduce((sum, one) => sum + one, 0);
}
function shares(fish: ReadonlyMap<number, number>): Draw {
	const all = sumOf(fish);
	return new Map([...fish].map(([unit, one]) => [unit, one / all]));
}
function mixed(one: Draw, other: Draw): Draw {
	const both = new Map([...one].map(([unit, share]) => [unit, share / 2]));
	for (const [unit, share] of other) both.set(unit, (both.get(unit) ?? 0) + share / 2);
	return both;
}
