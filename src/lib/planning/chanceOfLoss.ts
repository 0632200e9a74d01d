/** Rooms that hold a line, and what a year does to them. */
export interface HoldersOfLine {
	/** Rooms that hold the line now: a whole number, at least 0. */
	readonly holders: number;
	/** Chance that one room loses the line within a year, 0 to 1. */
	readonly lossPerYear: number;
	/** Chance that a room which still has it gives it to a new room within a year, 0 to 1. */
	readonly restockPerHolder: number;
	/** The club keeps the line in no more rooms than this. */
	readonly maxHolders: number;
	/** How much rooms lose it together, 0 (each by itself) to below 1: intra-class correlation within a year. */
	readonly correlation: number;
}

/**
 * How likely is it that every room has lost a line after one year, two years, and so on?
 *
 * Method: a Markov chain over the number of rooms that hold the line. In a year k rooms keep it k' times,
 * k' ~ Bin(k, 1-p), or beta-binomial with intra-class correlation rho when rooms fail together (a power cut, one
 * supplier, a disease); the k' that are left give it to Bin(k', c) new rooms, up to the most the club keeps.
 * Without restocking and correlation this is (1 - (1-p)^T)^K.
 *
 * Source: Markov chain of the counts (Kemeny & Snell 1960, from memory); beta-binomial: Skellam 1948 (from memory).
 * Cost: years x rooms^2.
 *
 * @param line the rooms and their chances
 * @param years whole number of years, at least 1
 * @returns for year 1, 2, ..., years: the chance, 0 to 1, that no room has the line
 * @throws RangeError when a value is outside its range
 * @example
 * const rooms = { holders: 3, lossPerYear: 0.2, restockPerHolder: 0, maxHolders: 3, correlation: 0 };
 * chanceOfLoss(rooms, 5)[4] // => 0.3038980...
 */
export function chanceOfLoss(line: HoldersOfLine, years: number): number[] {
	const { holders, lossPerYear, restockPerHolder, maxHolders, correlation } = line;
	const whole = (value: number, least: number) => Number.isSafeInteger(value) && value >= least;
	const share = (value: number) => value >= 0 && value <= 1;
	if (!whole(holders, 0) || !whole(maxHolders, holders) || !whole(years, 1))
		throw new RangeError('holders, maxHolders and years are whole numbers, maxHolders not below holders');
	if (!share(lossPerYear) || !share(restockPerHolder) || !(correlation >= 0 && correlation < 1))
		throw new RangeError('chances lie between 0 and 1, the correlation below 1');
	const kept = successes(maxHolders, 1 - lossPerYear, correlation);
	const given = successes(maxHolders, restockPerHolder, 0);
	let now = new Float64Array(maxHolders + 1);
	now[holders] = 1;
	const lost: number[] = [];
	for (let year = 0; year < years; year++) {
		const left = new Float64Array(maxHolders + 1);
		for (let k = 0; k <= maxHolders; k++)
			if (now[k]! > 0) for (let some = 0; some <= k; some++) left[some]! += now[k]! * kept[k]![some]!;
		const next = new Float64Array(maxHolders + 1);
		for (let k = 0; k <= maxHolders; k++)
			for (let more = 0; more <= k; more++)
				next[Math.min(maxHolders, k + more)]! += left[k]! * given[k]![more]!;
		now = next;
		lost.push(now[0]!);
	}
	return lost;
}

/**
 * Row n: chances of 0, 1, ..., n successes of n, binomial or beta-binomial with this correlation.
 *
 * Method: an urn to which each draw adds balls of its colour (Polya & Eggenberger 1923, from memory), one draw after
 * the other: only sums and products of chances, so that no number of rooms is too large for it.
 */
function successes(most: number, chance: number, correlation: number): Float64Array[] {
	// What a draw adds, in units of all balls at first.
	const added = correlation / (1 - correlation);
	const rows = [Float64Array.of(1)];
	for (let n = 0; n < most; n++) {
		const before = rows[n]!;
		const row = new Float64Array(n + 2);
		for (let k = 0; k <= n; k++) {
			const balls = 1 + n * added;
			row[k + 1]! += (before[k]! * (chance + k * added)) / balls;
			row[k]! += (before[k]! * (1 - chance + (n - k) * added)) / balls;
		}
		rows.push(row);
	}
	return rows;
}
