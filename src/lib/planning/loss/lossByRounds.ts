/** Rooms that hold a line, and who fills whom again when one has lost it. */
export interface RoomsOfRounds {
	/** For each room a key of its house: rooms of one house lose the line together. At least 1 room, 12 at most. */
	readonly houses: readonly string[];
	/** For each room the rooms, by their places, of which any fills it again; empty = nobody does. */
	readonly givers: readonly (readonly number[])[];
	/** Chance that a house loses the line within a year, 0 to 1. */
	readonly lossPerYear: number;
	/** How much houses lose it together within one round, 0 to below 1: intra-class correlation. */
	readonly correlation: number;
	/** Chance that a room without the line gets it in a round, when one of its givers has it, 0 to 1. */
	readonly filled: number;
}

const mostRooms = 12;

/**
 * Loss by rounds: how likely is it that every room has lost a line, when rounds of swaps fill rooms again?
 *
 * A Markov chain over the sets of rooms that have it, exact. Between two rounds houses fail, each by itself or in part
 * together (beta-binomial, house by house with the urn of Polya & Eggenberger 1923, from memory). Then the round:
 * each empty room is filled if one of its givers still has the line. What happens in a round to a bag, happens to each
 * by itself. After the last whole round of a year the houses fail for the rest of the year.
 * Source: Markov chain of the sets (Kemeny & Snell 1960, from memory). Without rounds it is (1 - (1-p)^T)^K; where any
 * room fills all others in rounds of a year, and never fails to, it is 1 - (1 - p^K)^T.
 * Cost: rounds x 2^rooms x houses, with a correlation x houses once more; where bags fail to come 3^rooms.
 *
 * @param monthsARound from one round to the next, above 0
 * @param years whole number, at least 1
 * @returns for year 1, 2, ..., years: the chance, 0 to 1, that no room has the line
 * @throws RangeError when a value is outside its range
 * @example
 * const pair = { houses: ['a', 'b'], givers: [[1], [0]], lossPerYear: 0.5, correlation: 0, filled: 1 };
 * lossByRounds(pair, 12, 2) // => [0.25, 0.4375]
 */
export function lossByRounds(rooms: RoomsOfRounds, monthsARound: number, years: number): number[] {
	check(rooms, monthsARound, years);
	const { givers, lossPerYear, correlation, filled } = rooms;
	const size = rooms.houses.length;
	const houses = [...Map.groupBy(rooms.houses.keys(), (room) => rooms.houses[room]!).values()].map(setOf);
	const giverSets = givers.map(setOf);
	// For each set of rooms those that are filled, if their bags come.
	const due = Array.from({ length: 1 << size }, (_, set) =>
		giverSets.flatMap((from, room) => (!(set & (1 << room)) && set & from ? [1 << room] : []))
	);
	const within = (months: number) => 1 - (1 - lossPerYear) ** (months / 12);
	let now = new Float64Array(1 << size);
	now[(1 << size) - 1] = 1;
	const lost: number[] = [];
	let rounds = 0;
	for (let year = 1; year <= years; year++) {
		// A round due at the very end of a year belongs to it, in spite of rounding.
		for (; (rounds + 1) * monthsARound <= year * 12 + 1e-9; rounds++)
			now = fill(fail(now, houses, within(monthsARound), correlation), due, filled);
		const rest = Math.max(0, year * 12 - rounds * monthsARound);
		lost.push(fail(now, houses, within(rest), correlation)[0]!);
	}
	return lost;
}

const setOf = (rooms: readonly number[]) => rooms.reduce((set, room) => set | (1 << room), 0);

/** Houses that fail, one after the other: how many did already makes the next one more or less likely to. */
function fail(
	now: Float64Array<ArrayBuffer>,
	houses: readonly number[],
	chance: number,
	correlation: number
): Float64Array<ArrayBuffer> {
	const sets = now.length;
	const added = correlation / (1 - correlation);
	// Row by row: so many houses have failed so far; one row where that makes no difference.
	const byFailed = Array.from({ length: added > 0 ? houses.length + 1 : 1 }, (_, n) =>
		n === 0 ? now.slice() : new Float64Array(sets)
	);
	for (const [place, house] of houses.entries())
		for (let failed = added > 0 ? place : 0; failed >= 0; failed--) {
			const here = byFailed[failed]!;
			const next = byFailed[added > 0 ? failed + 1 : 0]!;
			for (let set = 1; set < sets; set++) {
				const mass = here[set]!;
				if (mass === 0 || !(set & house)) continue;
				let tried = failed;
				if (added > 0) for (let one = 0; one < place; one++) if (set & houses[one]!) tried++;
				const fails = (mass * (chance + failed * added)) / (1 + tried * added);
				here[set] = mass - fails;
				next[set & ~house]! += fails;
			}
		}
	const after = new Float64Array(sets);
	for (const row of byFailed) for (let set = 0; set < sets; set++) after[set]! += row[set]!;
	return after;
}

/** The round: every room that is due. */
function fill(
	now: Float64Array<ArrayBuffer>,
	due: readonly (readonly number[])[],
	filled: number
): Float64Array<ArrayBuffer> {
	const after = new Float64Array(now.length);
	const give = (rooms: readonly number[], place: number, reached: number, share: number): void => {
		if (share === 0) return;
		if (place === rooms.length) {
			after[reached]! += share;
			return;
		}
		give(rooms, place + 1, reached | rooms[place]!, share * filled);
		give(rooms, place + 1, reached, share * (1 - filled));
	};
	for (const [set, mass] of now.entries()) give(due[set]!, 0, set, mass);
	return after;
}

function check(rooms: RoomsOfRounds, monthsARound: number, years: number): void {
	const { houses, givers, lossPerYear, correlation, filled } = rooms;
	const share = (value: number) => value >= 0 && value <= 1;
	const place = (room: number) => Number.isSafeInteger(room) && room >= 0 && room < houses.length;
	if (houses.length < 1 || houses.length > mostRooms)
		throw new RangeError(`lossByRounds requires 1 to ${mostRooms} rooms, got ${houses.length}`);
	if (givers.length !== houses.length || !givers.flat().every(place))
		throw new RangeError('lossByRounds requires givers that are among the rooms, for each room');
	if (!share(lossPerYear) || !share(filled) || !(correlation >= 0 && correlation < 1))
		throw new RangeError('lossByRounds requires chances between 0 and 1, the correlation below 1');
	if (!(monthsARound > 0 && Number.isFinite(monthsARound)) || !(Number.isSafeInteger(years) && years >= 1))
		throw new RangeError(`lossByRounds requires months and years above 0, got ${monthsARound} and ${years}`);
}
