import { meanInbreeding, meanKinshipOfAll, nextBroods, type Breeders, type Broods } from './broods.ts';
import { chanceFrom, type Chance } from './chance.ts';
import { chooseTogether } from './chooseTogether.ts';
import { donorsOf, type ExchangeOfRooms } from './donors.ts';
import { pairUp } from './pairUp.ts';

/** How a simulated club breeds and swaps. */
export interface ExchangeStrategy {
	/** At least 1; at least 2 to exchange. */
	readonly rooms: number;
	/** Even, at least 2: half males, half females. */
	readonly breedersPerRoom: number;
	readonly exchange: 'none' | 'full' | ExchangeOfRooms;
	/** Where the next breeders come from: a random brood each, or one son and one daughter of every brood. */
	readonly breeders: 'random' | 'equalised';
	readonly pairs: 'random' | 'leastRelated';
	/** For `full`: weight of the mean kinship of the pairs beside the mean kinship of all. */
	readonly lambda: number;
	/** Exchange only in generations that this number divides; at least 1. */
	readonly bagEvery: number;
}

/** Means over the replicates, for generation 1, 2, ...; standard errors from the spread between replicates. */
export interface SimulatedCourse {
	readonly inbreeding: number[];
	readonly inbreedingSE: number[];
	readonly geneDiversity: number[];
	readonly geneDiversitySE: number[];
}

/**
 * What becomes of a line in equal rooms when fish are swapped and paired in a certain way?
 *
 * Method: founders are unrelated; each generation every female breeds once with a male of her room, males used
 * equally; the next breeders come from the room's own broods, except one male of each room that comes from another.
 * Kinship is exact (tabular method over broods), only the choices are drawn.
 *
 * Source: the ways of exchange after Kimura & Crow 1963 (ring), Windig & Kaal 2008 (rotation), Ballou & Lacy 1995
 * (least mean kinship), Fernandez, Toro & Caballero 2001 (choice of broods and pairs together).
 * Cost: replicates x generations x (rooms x breeders)^2.
 *
 * @param strategy see each part
 * @param generations whole number, at least 1
 * @param replicates whole number, at least 1; with 1 the standard errors are 0
 * @param seed a whole number; the same seed gives the same answer
 * @returns mean inbreeding and gene diversity (0 to 1) of the breeders after each round
 * @throws RangeError when a value is outside its range
 * @example
 * const alone = { rooms: 1, breedersPerRoom: 2, exchange: 'none', breeders: 'random', pairs: 'random', lambda: 0, bagEvery: 1 };
 * simulateExchange(alone, 3, 1, 1).inbreeding // => [0, 0.25, 0.375]
 */
export function simulateExchange(
	strategy: ExchangeStrategy,
	generations: number,
	replicates: number,
	seed: number
): SimulatedCourse {
	check(strategy, generations, replicates, seed);
	const inbreeding = newSpread(generations);
	const geneDiversity = newSpread(generations);
	const chance = chanceFrom(seed);
	for (let replicate = 0; replicate < replicates; replicate++) {
		let line = founders(strategy, chance);
		for (let generation = 1; generation <= generations; generation++) {
			line = nextGeneration(strategy, line, generation, chance);
			inbreeding.add(generation - 1, meanInbreeding(line.broods, line.breeders));
			geneDiversity.add(generation - 1, 1 - meanKinshipOfAll(line.broods, line.breeders));
		}
	}
	return {
		inbreeding: inbreeding.means(replicates),
		inbreedingSE: inbreeding.errors(replicates),
		geneDiversity: geneDiversity.means(replicates),
		geneDiversitySE: geneDiversity.errors(replicates)
	};
}

interface Line {
	readonly broods: Broods;
	readonly breeders: Breeders;
	/** Pairs that will breed next. */
	readonly mates: Int32Array;
}

/** Unrelated breeders: each is alone in a brood of its own, so the first table has two broods for every pair. */
function founders({ rooms, breedersPerRoom }: ExchangeStrategy, chance: Chance): Line {
	const count = rooms * breedersPerRoom;
	const broods: Broods = {
		rooms,
		pairs: breedersPerRoom,
		between: new Float64Array(count * count),
		inbreeding: new Float64Array(count)
	};
	const breeders = Int32Array.from({ length: count }, (_, i) => i);
	const pairs = breedersPerRoom / 2;
	const mates = new Int32Array(rooms * pairs);
	for (let room = 0; room < rooms; room++) mates.set(chance.order(pairs), room * pairs);
	return { broods, breeders, mates };
}

/** How many searches `full` makes in each generation. */
const startsTogether = 2;

function nextGeneration(strategy: ExchangeStrategy, line: Line, generation: number, chance: Chance): Line {
	const { breedersPerRoom, exchange } = strategy;
	const pairs = breedersPerRoom / 2;
	// The founders' table is wider; which slots are one room's is the same for both.
	const broods = nextBroods({ ...line.broods, pairs }, line.breeders, line.mates);
	const exchanging = exchange !== 'none' && generation % strategy.bagEvery === 0;
	const begin = () => firstChoice(strategy, broods, generation, exchanging, chance);
	if (exchange === 'full') {
		const starts = Array.from({ length: startsTogether }, begin);
		return { broods, ...chooseTogether(broods, starts, strategy.lambda, exchanging, chance) };
	}
	const breeders = begin();
	return { broods, breeders, mates: pairUp(strategy.pairs, broods, breeders, chance) };
}

/** The next breeders by the rules of the strategy; for `full` a choice to begin its search with. */
function firstChoice(
	{ rooms, breedersPerRoom, exchange, breeders, bagEvery }: ExchangeStrategy,
	broods: Broods,
	generation: number,
	exchanging: boolean,
	chance: Chance
): Breeders {
	const pairs = breedersPerRoom / 2;
	const equal = breeders === 'equalised' || exchange === 'full';
	const chosen = Int32Array.from({ length: rooms * breedersPerRoom }, (_, slot) => {
		const room = Math.floor(slot / breedersPerRoom);
		return room * pairs + (equal ? slot % pairs : chance.below(pairs));
	});
	if (!exchanging || exchange === 'none') return chosen;
	const donors = donorsOf(
		exchange === 'full' ? 'random' : exchange,
		broods,
		generation / bagEvery - 1,
		chance
	);
	// Not always the same brood loses its place; the search of `full` looks for it in the first one.
	const place = equal && exchange !== 'full' ? generation % pairs : 0;
	for (let room = 0; room < rooms; room++) {
		const first = room * breedersPerRoom;
		chosen[first + place] = donors[room]! * pairs + chance.below(pairs);
	}
	return chosen;
}

/** Sums and squares of one figure over the replicates. */
function newSpread(generations: number) {
	const sum = new Float64Array(generations);
	const squares = new Float64Array(generations);
	const first = new Float64Array(generations).fill(Number.NaN);
	return {
		add(generation: number, value: number) {
			// Measured from the first value, so that small spreads survive the subtraction.
			if (Number.isNaN(first[generation]!)) first[generation] = value;
			const apart = value - first[generation]!;
			sum[generation]! += apart;
			squares[generation]! += apart * apart;
		},
		means: (n: number) => Array.from(sum, (total, i) => first[i]! + total / n),
		errors: (n: number) =>
			Array.from(sum, (total, i) =>
				n < 2 ? 0 : Math.sqrt(Math.max(0, (squares[i]! - total ** 2 / n) / (n - 1) / n))
			)
	};
}

function check(strategy: ExchangeStrategy, generations: number, replicates: number, seed: number): void {
	const { rooms, breedersPerRoom, exchange, lambda, bagEvery } = strategy;
	const whole = (value: number, least: number) => Number.isSafeInteger(value) && value >= least;
	if (!whole(rooms, exchange === 'none' ? 1 : 2))
		throw new RangeError('rooms: a whole number, 2 or more to swap');
	if (!whole(breedersPerRoom, 2) || breedersPerRoom % 2)
		throw new RangeError('breedersPerRoom: even, 2 or more');
	if (!whole(generations, 1) || !whole(replicates, 1) || !whole(bagEvery, 1))
		throw new RangeError('generations, replicates and bagEvery: whole numbers, 1 or more');
	if (!Number.isSafeInteger(seed) || !(lambda >= 0 && Number.isFinite(lambda)))
		throw new RangeError('seed: a whole number; lambda: 0 or more');
}
