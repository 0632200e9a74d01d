import { kept } from '#genetics/ahead/room.ts';
import type { UnitId } from '#genetics/groups/event.ts';
import { positions } from '#genetics/groups/table.ts';
import type { Chance } from '../chance.ts';
import { ChooseAhead } from './chooseAhead.ts';
import { donorsAhead } from './donorsAhead.ts';
import { FishKinship, type Measured } from './fishKinship.ts';
import { leastRelatedMates } from './leastRelatedMates.ts';
import type { Place } from './place.ts';
import type { LineToCome, StrategyAhead } from './strategyAhead.ts';

export interface MeasuredTwice extends Measured {
	/** As it may be in truth; null where nothing is open. */
	readonly truth: Measured | null;
}

/**
 * Futures of a line, one after another: single fish, and the kinship of each with each, exact through their pedigree.
 * The tables are made once and used for every future. A room that is empty keeps its slots; nothing reads them.
 */
export class Future {
	readonly #line: LineToCome;
	readonly #strategy: StrategyAhead;
	readonly #chance: Chance;
	readonly #houses: readonly (readonly number[])[];
	readonly #places: readonly Place[];
	readonly #size: number;
	/** As the record expects: what strategies choose by. */
	readonly #fish: FishKinship;
	/** As it may be in truth, where the record leaves something open. */
	readonly #truth: FishKinship | null;
	readonly #sire: Int32Array;
	readonly #dam: Int32Array;
	/** Where mates are chosen: the mate of each female. */
	#mate: Int32Array;
	/** Where all is chosen together: that choice, and the pairs that it made for the next generation. */
	readonly #choose: ChooseAhead | null;
	#nextMate: Int32Array;
	/** For each fish and room: mean kinship with the room's parents, half by its males and half by its females. */
	readonly #toRoom: Float64Array;
	readonly #holds: Uint8Array;
	/** Room by room: the fish that can be drawn at the start, each by its unit; males, then females. */
	readonly #drawnFrom: readonly { readonly males: Int32Array; readonly females: Int32Array }[];

	constructor(line: LineToCome, strategy: StrategyAhead, chance: Chance) {
		this.#line = line;
		this.#strategy = strategy;
		this.#chance = chance;
		const { rooms, table } = line;
		const houses = Map.groupBy(rooms.keys(), (room) => rooms[room]!.house);
		this.#houses = [...houses.values()];
		let size = 0;
		this.#places = rooms.map(({ fathers, mothers }) => {
			const first = size;
			const females = first + kept(fathers);
			size = females + kept(mothers);
			return { first, females, end: size };
		});
		this.#size = size;
		this.#fish = new FishKinship(size);
		this.#truth = line.drawn?.length ? new FishKinship(size) : null;
		this.#sire = new Int32Array(size);
		this.#dam = new Int32Array(size);
		this.#mate = new Int32Array(size);
		this.#nextMate = new Int32Array(size);
		this.#choose = strategy.breeders === 'together' ? new ChooseAhead(this.#places, size) : null;
		this.#toRoom = new Float64Array(size * rooms.length);
		this.#holds = new Uint8Array(rooms.length);
		const fishOf = (units: readonly UnitId[]) =>
			Int32Array.from(
				positions(table, units, 'simulateAhead').flatMap((unit) =>
					Array<number>(table.count[unit]!).fill(unit)
				)
			);
		this.#drawnFrom = rooms.map(({ room, males, females }, i) => {
			const { first, females: middle, end } = this.#places[i]!;
			const fish = { males: fishOf(males), females: fishOf(females) };
			if (males.some((unit) => females.includes(unit)))
				throw new RangeError(`simulateAhead requires males and females apart, got both together in ${room}`);
			if (fish.males.length < middle - first || fish.females.length < end - middle)
				throw new RangeError(`simulateAhead requires as many fish as breed, got fewer in ${room}`);
			return fish;
		});
	}

	/**
	 * Back to today, with the breeders drawn anew among the fish of today.
	 *
	 * @param nth which future this is: the next of the ways in which what is open may have been
	 */
	begin(nth: number): MeasuredTwice {
		const unit = new Int32Array(this.#size);
		for (const [room, { first, females, end }] of this.#places.entries()) {
			const from = this.#drawnFrom[room]!;
			const draw = (fish: Int32Array, start: number, stop: number) => {
				const order = this.#chance.order(fish.length);
				for (let i = start; i < stop; i++) unit[i] = fish[order[i - start]!]!;
			};
			draw(from.males, first, females);
			draw(from.females, females, end);
		}
		this.#fish.begin(this.#line.table, unit);
		const drawn = this.#line.drawn ?? [];
		this.#truth?.begin(drawn[nth % drawn.length]!, unit);
		this.#holds.fill(1);
		if (this.#choose) this.#chooseMates();
		return this.#measure();
	}

	/**
	 * One generation on.
	 *
	 * @param generation 1 is the first
	 * @returns null when the line is lost, now or before
	 */
	step(generation: number): MeasuredTwice | null {
		const before = this.#lose();
		if (!this.#holds.includes(1)) return null;
		const { exchange, breeders, every } = this.#strategy;
		const moving = exchange !== 'none' && generation % every === 0;
		if (breeders === 'even') this.#chooseMates();
		const donors = moving ? this.#donors(before, Math.floor(generation / every) - 1) : null;
		if (this.#choose) this.#chooseTogether(this.#choose, before, donors);
		else this.#fillRooms(generation, before, donors);
		this.#fish.breed(this.#sire, this.#dam);
		this.#truth?.breed(this.#sire, this.#dam);
		return this.#measure();
	}

	/** The parents of each next breeder by the rules of the strategy. */
	#fillRooms(generation: number, before: Int32Array, donors: Int32Array | null): void {
		const even = this.#strategy.breeders === 'even';
		for (const [room, place] of this.#places.entries()) {
			if (!this.#holds[room]) continue;
			// A room that is filled again gets all its fish from the one that fills it.
			const own = before[room]!;
			for (let slot = place.first; slot < place.end; slot++) {
				const comes = donors && own === room && slot < place.females ? donors[room]! : -1;
				const isMoved = comes >= 0 && slot - place.first < this.#strategy.malesMoved;
				const from = isMoved ? comes : own;
				if (!even) this.#drawParents(slot, from);
				else if (isMoved) this.#takeBrood(slot, this.#bestBrood(room, from, slot - place.first));
				// Not always the same brood goes without a son where one male comes from elsewhere.
				else if (slot < place.females)
					this.#takeBrood(slot, this.#brood(from, slot - place.first + generation));
				else this.#takeBrood(slot, this.#brood(from, slot - place.females));
			}
		}
	}

	#chooseTogether(choose: ChooseAhead, before: Int32Array, donors: Int32Array | null): void {
		const rooms = this.#places.length;
		const each = (of: (room: number) => number) => Int32Array.from({ length: rooms }, (_, room) => of(room));
		const isFree = this.#strategy.exchange === 'leastRelated';
		const gets = (room: number) => donors !== null && donors[room]! >= 0;
		const males = (room: number) => this.#places[room]!.females - this.#places[room]!.first;
		const fill = {
			parentsIn: each((room) => (this.#holds[room] ? before[room]! : -1)),
			moved: each((room) => (gets(room) ? Math.min(males(room), this.#strategy.malesMoved) : 0)),
			donor: each((room) => (donors && !isFree ? donors[room]! : -1)),
			gives: each((room) => Number(gets(room)))
		};
		choose.choose(this.#fish.now, this.#mate, fill, this.#dam, this.#nextMate, this.#chance);
		for (let slot = 0; slot < this.#size; slot++) this.#sire[slot] = this.#mate[this.#dam[slot]!]!;
		// The pairs of the next generation were chosen with its breeders.
		[this.#mate, this.#nextMate] = [this.#nextMate, this.#mate];
	}

	/** Houses that lose the line, and rooms filled again. @returns for each room the room that its parents are in */
	#lose(): Int32Array {
		const { lost, refilled } = this.#line.losses;
		const parentsIn = Int32Array.from(this.#places.keys());
		if (lost > 0)
			for (const house of this.#houses)
				if (this.#chance.below(1e9) < lost * 1e9) for (const room of house) this.#holds[room] = 0;
		if (refilled > 0 && this.#holds.includes(0)) {
			const empty = [...this.#holds.keys()].filter((room) => !this.#holds[room]);
			for (const room of [...this.#holds.keys()].filter((each) => this.#holds[each])) {
				if (empty.length === 0 || this.#chance.below(1e9) >= refilled * 1e9) continue;
				const [filled] = empty.splice(this.#chance.below(empty.length), 1);
				parentsIn[filled!] = room;
			}
			for (const [room, from] of parentsIn.entries()) if (from !== room) this.#holds[room] = 1;
		}
		return parentsIn;
	}

	/** For each room its donor, or -1; null when nothing moves. Rooms filled in this generation are not among them. */
	#donors(before: Int32Array, nth: number): Int32Array | null {
		const { exchange } = this.#strategy;
		const taking = [...this.#places.keys()].filter(
			(room) => this.#holds[room] && before[room] === room && this.#line.rooms[room]!.takesPart
		);
		if (!this.#choose && (exchange === 'leastRelated' || this.#strategy.breeders === 'even'))
			this.#meanWithRooms();
		// Where all is chosen together the least related is any: it is part of the choice.
		const rule = this.#choose && exchange === 'leastRelated' ? 'ring' : exchange;
		const donors = donorsAhead(rule, taking.length, nth, this.#chance, (room, donor) =>
			this.#kinshipOfRooms(taking[room]!, taking[donor]!)
		);
		if (!donors) return null;
		const of = new Int32Array(this.#places.length).fill(-1);
		for (const [place, donor] of donors.entries()) of[taking[place]!] = taking[donor]!;
		return of;
	}

	#meanWithRooms(): void {
		const [n, now] = [this.#size, this.#fish.now];
		const rooms = this.#places.length;
		for (let fish = 0; fish < n; fish++)
			for (let room = 0; room < rooms; room++) {
				const { first, females, end } = this.#places[room]!;
				let [bySons, byDaughters] = [0, 0];
				for (let i = first; i < females; i++) bySons += now[fish * n + i]!;
				for (let i = females; i < end; i++) byDaughters += now[fish * n + i]!;
				this.#toRoom[fish * rooms + room] =
					bySons / (females - first) / 2 + byDaughters / (end - females) / 2;
			}
	}

	/** Mean kinship of the young of two rooms; where broods can be chosen, of the donor's best brood. */
	#kinshipOfRooms(room: number, donor: number): number {
		const rooms = this.#places.length;
		const { first, females, end } = this.#places[donor]!;
		if (this.#strategy.breeders === 'even') {
			const dam = this.#bestBrood(room, donor, 0);
			return (this.#toRoom[dam * rooms + room]! + this.#toRoom[this.#mate[dam]! * rooms + room]!) / 2;
		}
		let [bySons, byDaughters] = [0, 0];
		for (let i = first; i < females; i++) bySons += this.#toRoom[i * rooms + room]!;
		for (let i = females; i < end; i++) byDaughters += this.#toRoom[i * rooms + room]!;
		return bySons / (females - first) / 2 + byDaughters / (end - females) / 2;
	}

	#chooseMates(): void {
		const [n, now] = [this.#size, this.#fish.now];
		for (const [room, { first, females, end }] of this.#places.entries()) {
			if (!this.#holds[room]) continue;
			const mates = this.#mate.subarray(females, end);
			const kinship = (male: number, female: number) => now[(first + male) * n + females + female]!;
			leastRelatedMates(females - first, end - females, kinship, mates);
			for (let i = 0; i < mates.length; i++) mates[i]! += first;
		}
	}

	/** The mother of a room's brood number so many, going round. */
	#brood(room: number, number: number): number {
		const { females, end } = this.#places[room]!;
		return females + (number % (end - females));
	}

	/** The mother of the donor's brood that is least related to the room; of the next best one for a second male. */
	#bestBrood(room: number, donor: number, nth: number): number {
		const rooms = this.#places.length;
		const { females, end } = this.#places[donor]!;
		const kinship = (dam: number) =>
			this.#toRoom[dam * rooms + room]! + this.#toRoom[this.#mate[dam]! * rooms + room]!;
		if (nth === 0) {
			let best = females;
			for (let dam = females + 1; dam < end; dam++) if (kinship(dam) < kinship(best)) best = dam;
			return best;
		}
		const dams = Array.from({ length: end - females }, (_, i) => females + i);
		dams.sort((a, b) => kinship(a) - kinship(b) || a - b);
		return dams[nth % dams.length]!;
	}

	#takeBrood(slot: number, dam: number): void {
		this.#dam[slot] = dam;
		this.#sire[slot] = this.#mate[dam]!;
	}

	#drawParents(slot: number, room: number): void {
		const { first, females, end } = this.#places[room]!;
		this.#sire[slot] = first + this.#chance.below(females - first);
		this.#dam[slot] = females + this.#chance.below(end - females);
	}

	#measure(): MeasuredTwice {
		const truth = this.#truth?.measure(this.#places, this.#holds) ?? null;
		return { ...this.#fish.measure(this.#places, this.#holds), truth };
	}
}
