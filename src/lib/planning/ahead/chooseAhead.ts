import type { Chance } from '../chance.ts';
import { bestMates } from './bestMates.ts';
import type { Place } from './place.ts';

/** Where the next breeders of each room may come from; all by the number of the room. */
export interface RoomsToFill {
	/** The room that its parents are in; -1 = nobody has the line there any more. */
	readonly parentsIn: Int32Array;
	/** So many of its first males come from another room. */
	readonly moved: Int32Array;
	/** The room that these come from; -1 = from any that gives. */
	readonly donor: Int32Array;
	/** 1 = it may give. */
	readonly gives: Int32Array;
}

/** How much the mean kinship of the pairs weighs beside that of all breeders. */
const lambda = 0.1;
/** Searches in each generation. */
const starts = 2;

/**
 * The next breeders and their pairs chosen together: which brood each comes from, from which room, who with whom.
 *
 * Makes (mean kinship of all breeders, a fish with itself included) + 0.1 x (mean kinship of the pairs) small: one
 * breeder at a time is taken from a better brood until none is better, pairs are matched anew, and so on. A local
 * search, the better of two: there is no proof that nothing better exists. The donors to begin with are drawn by lot:
 * beginning with the least related came out worse after twenty generations. The same aim and search as
 * `chooseTogether`, for rooms of any size, rooms that stay out and rooms filled again.
 * Source: Fernandez, Toro & Caballero 2001, Animal Biodiversity and Conservation 24.2:17 (choice of broods and pairs
 * in one step); the weight after an own study of 2 to 20 breeders in 6 to 12 rooms.
 */
export class ChooseAhead {
	readonly #places: readonly Place[];
	readonly #size: number;
	readonly #roomOf: Int32Array;
	/** The mother of each brood. Broods of room r are those from `firstBrood[r]` up to `firstBrood[r + 1]`. */
	readonly #damOf: Int32Array;
	readonly #firstBrood: Int32Array;
	/** Kinship of two different young of two broods, row by row; what a fish with itself adds above a brother. */
	readonly #between: Float64Array;
	readonly #itself: Float64Array;
	readonly #chosen: Int32Array;
	/** For every brood: the sum of its kinships with all breeders chosen. */
	readonly #withAll: Float64Array;
	/** For each next female the slot of her male, in the search under way. */
	readonly #pairs: Int32Array;

	constructor(places: readonly Place[], size: number) {
		this.#places = places;
		this.#size = size;
		this.#roomOf = new Int32Array(size);
		const dams: number[] = [];
		this.#firstBrood = new Int32Array(places.length + 1);
		for (const [room, { first, females, end }] of places.entries()) {
			this.#roomOf.fill(room, first, end);
			this.#firstBrood[room] = dams.length;
			for (let dam = females; dam < end; dam++) dams.push(dam);
		}
		this.#firstBrood[places.length] = dams.length;
		this.#damOf = Int32Array.from(dams);
		this.#between = new Float64Array(dams.length ** 2);
		this.#itself = new Float64Array(dams.length);
		this.#chosen = new Int32Array(size);
		this.#withAll = new Float64Array(dams.length);
		this.#pairs = new Int32Array(size);
	}

	/**
	 * @param kinship of the fish there, row by row
	 * @param mates the male of each female there
	 * @param dams out: the mother of each next breeder, where its room has the line
	 * @param pairs out: for each next female the slot of her male
	 */
	choose(
		kinship: Float64Array,
		mates: Int32Array,
		fill: RoomsToFill,
		dams: Int32Array,
		pairs: Int32Array,
		chance: Chance
	): void {
		this.#seeBroods(kinship, mates);
		const slots: number[] = [];
		for (let slot = 0; slot < this.#size; slot++)
			if (fill.parentsIn[this.#roomOf[slot]!]! >= 0) slots.push(slot);
		let best = Infinity;
		for (let start = 0; start < starts; start++) {
			for (const slot of slots) this.#chosen[slot] = this.#begin(slot, fill, chance);
			const value = this.#search(slots, fill, chance);
			if (value >= best) continue;
			best = value;
			for (const slot of slots) dams[slot] = this.#damOf[this.#chosen[slot]!]!;
			pairs.set(this.#pairs);
		}
	}

	/** To begin with: one of every brood as far as they go round; a fish that comes, from a brood drawn by lot. */
	#begin(slot: number, fill: RoomsToFill, chance: Chance): number {
		const room = this.#roomOf[slot]!;
		const broodsIn = (from: number) => this.#firstBrood[from + 1]! - this.#firstBrood[from]!;
		if (!this.#comes(slot, fill)) {
			const { first, females } = this.#places[room]!;
			const from = fill.parentsIn[room]!;
			return this.#firstBrood[from]! + ((slot < females ? slot - first : slot - females) % broodsIn(from));
		}
		let from = fill.donor[room]!;
		if (from < 0) {
			const giving = [...fill.gives.keys()].filter((other) => other !== room && fill.gives[other]);
			from = giving[chance.below(giving.length)]!;
		}
		return this.#firstBrood[from]! + chance.below(broodsIn(from));
	}

	#comes(slot: number, { moved }: RoomsToFill): boolean {
		const room = this.#roomOf[slot]!;
		const { first, females } = this.#places[room]!;
		return slot < females && slot - first < moved[room]!;
	}

	/** Makes what is chosen better in place. @returns what it came to */
	#search(slots: readonly number[], fill: RoomsToFill, chance: Chance): number {
		const pairs = this.#pairs;
		const [broods, between, withAll] = [this.#damOf.length, this.#between, this.#withAll];
		withAll.fill(0);
		for (const slot of slots) {
			const row = this.#chosen[slot]! * broods;
			for (let b = 0; b < broods; b++) withAll[b]! += between[row + b]!;
		}
		const females = slots.filter((slot) => slot >= this.#places[this.#roomOf[slot]!]!.females);
		const [perTwo, perPair] = [1 / slots.length ** 2, lambda / females.length];
		for (let better = true, isFirst = true; better; isFirst = false) {
			this.#pairUp(fill, pairs, isFirst);
			better = false;
			for (const i of chance.order(slots.length))
				if (this.#improve(slots[i]!, fill, pairs, perTwo, perPair)) better = true;
		}
		let value = 0;
		for (const slot of slots)
			value += perTwo * (withAll[this.#chosen[slot]!]! + this.#itself[this.#chosen[slot]!]!);
		for (const female of females)
			value += perPair * between[this.#chosen[female]! * broods + this.#chosen[pairs[female]!]!]!;
		return value;
	}

	/** Kinship of the young of every two broods (Wright 1922). */
	#seeBroods(kinship: Float64Array, mates: Int32Array): void {
		const [n, broods] = [this.#size, this.#damOf.length];
		for (let a = 0; a < broods; a++) {
			const dam = this.#damOf[a]!;
			const [mother, father] = [dam * n, mates[dam]! * n];
			for (let b = 0; b <= a; b++) {
				const other = this.#damOf[b]!;
				const sire = mates[other]!;
				this.#between[a * broods + b] = this.#between[b * broods + a] =
					(kinship[mother + other]! +
						kinship[mother + sire]! +
						kinship[father + other]! +
						kinship[father + sire]!) /
					4;
			}
			this.#itself[a] = (1 + kinship[father + dam]!) / 2 - this.#between[a * broods + a]!;
		}
	}

	/** Pairs every room anew; pairs already there go only for less related ones, so that the search comes to an end. */
	#pairUp({ parentsIn }: RoomsToFill, pairs: Int32Array, isFirst: boolean): void {
		const broods = this.#damOf.length;
		for (const [room, { first, females, end }] of this.#places.entries()) {
			if (parentsIn[room]! < 0) continue;
			const kinship = (male: number, female: number) =>
				this.#between[this.#chosen[first + male]! * broods + this.#chosen[females + female]!]!;
			const mates = bestMates(females - first, end - females, kinship);
			let gain = isFirst ? 1 : -1e-12;
			for (let i = 0; i < end - females && !isFirst; i++)
				gain += kinship(pairs[females + i]! - first, i) - kinship(mates[i]!, i);
			if (gain > 0) for (let i = 0; i < end - females; i++) pairs[females + i] = first + mates[i]!;
		}
	}

	/** Takes one breeder from the brood that is best for it, all others as they are. */
	#improve(slot: number, fill: RoomsToFill, pairs: Int32Array, perTwo: number, perPair: number): boolean {
		const room = this.#roomOf[slot]!;
		const { females, end } = this.#places[room]!;
		const [broods, between, withAll] = [this.#damOf.length, this.#between, this.#withAll];
		const now = this.#chosen[slot]!;
		const row = now * broods;
		const partners: number[] = [];
		if (slot >= females) partners.push(this.#chosen[pairs[slot]!]! * broods);
		else
			for (let female = females; female < end; female++)
				if (pairs[female] === slot) partners.push(this.#chosen[female]! * broods);
		let best = now;
		let gain = -1e-12;
		const look = (from: number) => {
			for (let b = this.#firstBrood[from]!; b < this.#firstBrood[from + 1]!; b++) {
				let change =
					perTwo *
					(2 * (withAll[b]! - withAll[now]!) +
						between[row + now]! +
						between[b * broods + b]! -
						2 * between[row + b]! +
						this.#itself[b]! -
						this.#itself[now]!);
				for (const partner of partners) change += perPair * (between[partner + b]! - between[partner + now]!);
				if (change < gain) [gain, best] = [change, b];
			}
		};
		if (!this.#comes(slot, fill)) look(fill.parentsIn[room]!);
		else if (fill.donor[room]! >= 0) look(fill.donor[room]!);
		else
			for (let from = 0; from < this.#places.length; from++)
				if (from !== room && fill.gives[from]) look(from);
		if (best === now) return false;
		this.#chosen[slot] = best;
		for (let b = 0; b < broods; b++) withAll[b]! += between[best * broods + b]! - between[row + b]!;
		return true;
	}
}
