import { kept } from '#genetics/ahead/room.ts';
import type { UnitId } from '#genetics/groups/event.ts';
import { drawDifferent, positions } from '#genetics/groups/table.ts';
import type { Chance } from '../chance.ts';
import { donorsAhead } from './donorsAhead.ts';
import { leastRelatedMates } from './leastRelatedMates.ts';
import type { LineToCome, StrategyAhead } from './strategyAhead.ts';

/** One room's breeders among all fish: males from `first`, females from `females`, up to `end`. */
interface Place {
	readonly first: number;
	readonly females: number;
	readonly end: number;
}

/** What a generation came to; nothing to measure where the line is lost. */
export interface Measured {
	readonly inbreeding: number;
	readonly geneDiversity: number;
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
	#now: Float64Array;
	#next: Float64Array;
	/** For each young and each fish before it: mean kinship of the young's two parents with that fish. */
	readonly #half: Float64Array;
	readonly #sire: Int32Array;
	readonly #dam: Int32Array;
	/** Where mates are chosen: the mate of each female. */
	readonly #mate: Int32Array;
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
		this.#now = new Float64Array(size * size);
		this.#next = new Float64Array(size * size);
		this.#half = new Float64Array(size * size);
		this.#sire = new Int32Array(size);
		this.#dam = new Int32Array(size);
		this.#mate = new Int32Array(size);
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

	/** Back to today, with the breeders drawn anew among the fish of today. */
	begin(): Measured {
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
		const { table } = this.#line;
		const n = this.#size;
		for (let i = 0; i < n; i++)
			for (let j = 0; j < n; j++)
				this.#now[i * n + j] = i === j ? table.self[unit[i]!]! : drawDifferent(table, unit[i]!, unit[j]!);
		this.#holds.fill(1);
		return this.#measure();
	}

	/**
	 * One generation on.
	 *
	 * @param generation 1 is the first
	 * @returns null when the line is lost, now or before
	 */
	step(generation: number): Measured | null {
		const before = this.#lose();
		if (!this.#holds.includes(1)) return null;
		const { exchange, breeders, every } = this.#strategy;
		const moving = exchange !== 'none' && generation % every === 0;
		const even = breeders === 'even';
		if (even) this.#chooseMates();
		const donors = moving ? this.#donors(Math.floor(generation / every) - 1) : null;
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
		this.#breed();
		return this.#measure();
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
	#donors(nth: number): Int32Array | null {
		const { exchange } = this.#strategy;
		const taking = [...this.#places.keys()].filter(
			(room) => this.#holds[room] && this.#line.rooms[room]!.takesPart
		);
		if (exchange === 'leastRelated' || this.#strategy.breeders === 'even') this.#meanWithRooms();
		const donors = donorsAhead(exchange, taking.length, nth, this.#chance, (room, donor) =>
			this.#kinshipOfRooms(taking[room]!, taking[donor]!)
		);
		if (!donors) return null;
		const of = new Int32Array(this.#places.length).fill(-1);
		for (const [place, donor] of donors.entries()) of[taking[place]!] = taking[donor]!;
		return of;
	}

	#meanWithRooms(): void {
		const n = this.#size;
		const rooms = this.#places.length;
		for (let fish = 0; fish < n; fish++)
			for (let room = 0; room < rooms; room++) {
				const { first, females, end } = this.#places[room]!;
				let [bySons, byDaughters] = [0, 0];
				for (let i = first; i < females; i++) bySons += this.#now[fish * n + i]!;
				for (let i = females; i < end; i++) byDaughters += this.#now[fish * n + i]!;
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
		const n = this.#size;
		for (const [room, { first, females, end }] of this.#places.entries()) {
			if (!this.#holds[room]) continue;
			const mates = this.#mate.subarray(females, end);
			const kinship = (male: number, female: number) => this.#now[(first + male) * n + females + female]!;
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

	/** The tables of the young (Wright 1922): each is half its father and half its mother. */
	#breed(): void {
		const n = this.#size;
		const [now, next, half, sires, dams] = [this.#now, this.#next, this.#half, this.#sire, this.#dam];
		for (let i = 0; i < n; i++) {
			const [row, sire, dam] = [i * n, sires[i]! * n, dams[i]! * n];
			for (let x = 0; x < n; x++) half[row + x] = (now[sire + x]! + now[dam + x]!) / 2;
		}
		for (let i = 0; i < n; i++) {
			const row = i * n;
			for (let j = 0; j < i; j++)
				next[row + j] = next[j * n + i] = (half[row + sires[j]!]! + half[row + dams[j]!]!) / 2;
			next[row + i] = (1 + now[sires[i]! * n + dams[i]!]!) / 2;
		}
		[this.#now, this.#next] = [next, now];
	}

	#measure(): Measured {
		const n = this.#size;
		let [fish, self, all] = [0, 0, 0];
		for (const [one, a] of this.#places.entries()) {
			if (!this.#holds[one]) continue;
			fish += a.end - a.first;
			for (const [other, b] of this.#places.entries()) {
				if (!this.#holds[other]) continue;
				for (let i = a.first; i < a.end; i++)
					for (let j = b.first; j < b.end; j++) all += this.#now[i * n + j]!;
			}
			for (let i = a.first; i < a.end; i++) self += this.#now[i * n + i]!;
		}
		return { inbreeding: Math.max(0, (2 * self) / fish - 1), geneDiversity: 1 - all / fish ** 2 };
	}
}
