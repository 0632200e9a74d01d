import type { GenerationsEvent, GroupEvent, ParentSide, SpawnEvent, UnitId } from '../groups/event.ts';
import { FounderGenes } from './founderGenes.ts';

/** One fish: at each place of the genome its gene from the father, then those from the mother. */
export type DroppedFish = Int32Array;

/**
 * Drop genes: how could the genes of the founders have come down to the fish of today?
 *
 * Plays the events once with single fish and single genes: each possible parent, each fish that left and each gene
 * is drawn. Every gene of a founder has a number, and copies keep it. Places are unlinked. Founders are drawn out of
 * common pools, so that their inbreeding and kinship are those stated. Fish that came out of one of several units
 * leave it here, where it has more; the recursion lets its number stand until it is counted. It shares no formula with the recursion, and the two check each other.
 * Source: MacCluer, VandeBerg, Read & Ryder (1986), Zoo Biology 5:147.
 * Cost: O(fish × places) for each drop.
 *
 * @param events as for `groupKinship`, and such that they fit
 * @param random numbers from 0 to 1, for example of `randomFrom`
 * @param places unlinked places of the genome; 1 if absent
 * @param hear is given the founders of each unit as they come, before any of them leaves
 * @returns for each unit the fish that it last held; each fish is 2 × places long, fathers' genes first
 * @throws RangeError when founders have kinships that no common pools give
 * @example
 * dropGenes([{ kind: 'founders', unit: 'wild', count: 3 }], randomFrom(1)).get('wild').length // => 3
 */
export function dropGenes(
	events: readonly GroupEvent[],
	random: () => number,
	places = 1,
	hear: (unit: UnitId, founders: readonly DroppedFish[]) => void = () => {}
): ReadonlyMap<UnitId, readonly DroppedFish[]> {
	const drop = new Drop(random, places);
	for (const event of events) {
		drop.play(event);
		if (event.kind === 'founders') hear(event.unit, drop.fish.get(event.unit)!);
	}
	return drop.fish;
}

class Drop {
	readonly fish = new Map<UnitId, DroppedFish[]>();
	/** Males of units of unknown sexes: decided once, since a fish does not change its sex. */
	readonly #males = new Map<UnitId, ReadonlySet<DroppedFish>>();
	readonly #founders: FounderGenes[];
	readonly #random: () => number;
	readonly #places: number;
	#genes = 0;

	constructor(random: () => number, places: number) {
		this.#random = random;
		this.#places = places;
		const fresh = () => this.#genes++;
		this.#founders = Array.from({ length: places }, () => new FounderGenes(fresh, random));
	}

	play(event: GroupEvent): void {
		if (event.kind === 'founders') {
			const draws = this.#founders.map((one) => one.founder(event));
			this.#begin(event.unit, event.count, () => this.#fishOf((place) => draws[place]!()));
		} else if (event.kind === 'spawn') this.#spawn(event);
		else if (event.kind === 'split') {
			const all = this.#shuffled(this.fish.get(event.from)!);
			this.fish.set(event.unit, all.slice(0, event.count));
			if (event.count < all.length) this.fish.set(event.from, all.slice(event.count));
		} else if (event.kind === 'oneOf') {
			const { units } = event.from[this.#chosen(event.from.map(({ weight }) => weight))]!;
			event.units.forEach(({ unit, count }, k) => this.fish.set(unit, this.#leaving(units[k]!, count)));
		} else if (event.kind === 'merge')
			this.fish.set(
				event.unit,
				event.of.flatMap((unit) => this.fish.get(unit)!)
			);
		else if (event.kind === 'generations') this.#generations(event);
		else if (event.count > 0) this.#count(event.unit, event.count);
	}

	#spawn(event: SpawnEvent): void {
		const father = this.#parents(event.fathers, event.mothers, true);
		const mother = this.#parents(event.mothers, event.fathers, false);
		for (const { unit, count } of event.young)
			this.#begin(unit, count, () => this.#young(father(), mother()));
	}

	#generations(event: GenerationsEvent): void {
		let fathers = this.#shuffled(event.fathers.flatMap((unit) => this.fish.get(unit)!));
		const unsexed = event.fathers.some((unit) => event.mothers.includes(unit));
		let mothers = unsexed
			? [...fathers].reverse()
			: this.#shuffled(event.mothers.flatMap((unit) => this.fish.get(unit)!));
		const [males, females] = [this.#breeders(event.males), this.#breeders(event.females)];
		for (let left = event.generations; left > 0; left--) {
			const [sires, dams] = [fathers.slice(0, males), mothers.slice(0, females)];
			const born = () => this.#young(this.#one(sires), this.#one(dams));
			if (left === 1) for (const { unit, count } of event.young) this.#begin(unit, count, born);
			fathers = Array.from({ length: males }, born);
			mothers = Array.from({ length: females }, born);
		}
	}

	#count(unit: UnitId, count: number): void {
		const all = this.#shuffled(this.fish.get(unit)!);
		// More fish than before: some had been missed; which of the others they are most like is not known.
		while (all.length < count) all.push(this.#one(all));
		this.fish.set(unit, all.slice(0, count));
	}

	#begin(unit: UnitId, count: number, make: () => DroppedFish): void {
		this.fish.set(unit, Array.from({ length: count }, make));
	}

	#leaving(unit: UnitId, count: number): DroppedFish[] {
		const all = this.#shuffled(this.fish.get(unit)!);
		if (all.length > count) this.fish.set(unit, all.slice(count));
		return Array.from({ length: count }, (_, i) => all[i % all.length]!);
	}

	/** A function that gives the parent of one young after another. */
	#parents(side: ParentSide, other: ParentSide, isFather: boolean): () => DroppedFish {
		const weights = side.from.map(({ weight }) => weight);
		let outsider: DroppedFish | undefined;
		const possible = side.from.map(({ unit, breeders }) => {
			if (unit === null) return [];
			const all = this.fish.get(unit)!;
			const sexed = !other.from.some((share) => share.unit === unit);
			const ofSex = sexed ? all : all.filter((one) => this.#malesOf(unit, all).has(one) === isFather);
			// Of an odd fish alone either may be true: the one that the brood needs.
			const sex = ofSex.length ? ofSex : all;
			return breeders === undefined ? sex : this.#shuffled(sex).slice(0, this.#breeders(breeders));
		});
		const draw = () => {
			const k = this.#chosen(weights);
			if (side.from[k]!.unit !== null) return this.#one(possible[k]!);
			return (outsider ??= this.#fishOf(() => [this.#genes++, this.#genes++]));
		};
		if (side.draw === 'several') return draw;
		const only = draw();
		if (side.name !== undefined) this.fish.set(side.name, [only]);
		return () => only;
	}

	#malesOf(unit: UnitId, all: readonly DroppedFish[]): ReadonlySet<DroppedFish> {
		let males = this.#males.get(unit);
		if (!males) {
			const half = this.#random() < 0.5 ? Math.floor(all.length / 2) : Math.ceil(all.length / 2);
			this.#males.set(unit, (males = new Set(this.#shuffled(all).slice(0, half))));
		}
		return males;
	}

	#fishOf(genes: (place: number) => readonly [number, number]): DroppedFish {
		const fish = new Int32Array(2 * this.#places);
		for (let place = 0; place < this.#places; place++) {
			const [first, second] = genes(place);
			fish[place] = first;
			fish[this.#places + place] = second;
		}
		return fish;
	}

	#young(father: DroppedFish, mother: DroppedFish): DroppedFish {
		const places = this.#places;
		const fish = new Int32Array(2 * places);
		for (let place = 0; place < places; place++) {
			fish[place] = father[this.#random() < 0.5 ? place : places + place]!;
			fish[places + place] = mother[this.#random() < 0.5 ? place : places + place]!;
		}
		return fish;
	}

	/** A whole number of breeders whose inverse is right on average. */
	#breeders(effective: number): number {
		const [below, above] = [Math.floor(effective), Math.ceil(effective)];
		if (below === above) return below;
		const share = (1 / effective - 1 / above) / (1 / below - 1 / above);
		return this.#random() < share ? below : above;
	}

	#chosen(weights: readonly number[]): number {
		let left = this.#random() * weights.reduce((sum, weight) => sum + weight, 0);
		const found = weights.findIndex((weight) => (left -= weight) < 0);
		return found < 0 ? weights.length - 1 : found;
	}

	#one<T>(list: readonly T[]): T {
		return list[Math.floor(this.#random() * list.length)]!;
	}

	#shuffled<T>(list: readonly T[]): T[] {
		const all = [...list];
		for (let i = all.length - 1; i > 0; i--) {
			const j = Math.floor(this.#random() * (i + 1));
			[all[i], all[j]] = [all[j]!, all[i]!];
		}
		return all;
	}
}
