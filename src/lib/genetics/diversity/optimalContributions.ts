/** Relative to the least mean kinship; rounding alone leaves about a thousandth of this. */
const tolerance = 1e-12;

export interface OptimalContributions {
	/** Share of each fish or group, 0 or more, sum 1. */
	readonly contributions: Float64Array;
	/** c'Kc: mean kinship with these shares; 1 minus it is the gene diversity that could be reached. */
	readonly meanKinship: number;
	/** No shares at all can have a mean kinship lower by more than this. */
	readonly gap: number;
}

/**
 * Optimal contributions: with which shares of the next generation would most diversity be kept?
 *
 * Least c'Kc with c >= 0 and sum 1. The shares are a least point of a convex set: fish are taken in one by one, the one
 * least related to the mixture first; after each, the best mixture of those taken is solved for, and whoever would get
 * a negative share is put out again. It ends when nobody is less related to the mixture than the mixture to itself,
 * the condition of Karush, Kuhn and Tucker; by convexity the value is then least up to 2 (c'Kc - min (Kc)_i), given
 * as `gap`.
 * Source: aim: Ballou & Lacy (1995); Caballero & Toro (2000), Genetical Research 75:331. Method: Wolfe (1976),
 * Mathematical Programming 11:128, finding the nearest point in a polytope (from memory), with inner products K.
 * Cost: O(n s + s²) for each of about s steps, s the number with shares above 0; O(s³) when one is put out.
 *
 * @param table n rows of n: symmetric kinship of fish, or of groups drawn with replacement; not changed
 * @returns shares in the order of the table
 * @throws RangeError when the table is empty or not square, or a kinship with itself is not above 0
 * @example
 * optimalContributions(Float64Array.of(0.5, 0.25, 0.25, 0.25, 0.5, 0.25, 0.25, 0.25, 0.75)).meanKinship.toFixed(12) // => '0.350000000000'
 */
export function optimalContributions(table: Float64Array): OptimalContributions {
	const n = Math.round(Math.sqrt(table.length));
	if (n === 0 || n * n !== table.length)
		throw new RangeError(`optimalContributions requires n rows of n, got ${table.length} places`);
	let first = 0;
	for (let i = 0; i < n; i++) {
		if (!(table[i * n + i]! > 0))
			throw new RangeError(
				`optimalContributions requires kinship with self above 0, got ${table[i * n + i]}`
			);
		if (table[i * n + i]! < table[first * n + first]!) first = i;
	}
	const taken = new Mixture(table, n);
	taken.take(first);
	let shares = [1];
	const towards = new Float64Array(n);
	for (;;) {
		towards.fill(0);
		taken.members.forEach((member, k) => {
			for (let i = 0; i < n; i++) towards[i]! += shares[k]! * table[member * n + i]!;
		});
		const mean = taken.members.reduce((sum, member, k) => sum + shares[k]! * towards[member]!, 0);
		let least = 0;
		for (let i = 1; i < n; i++) if (towards[i]! < towards[least]!) least = i;
		const isBest = towards[least]! >= mean * (1 - tolerance) || taken.members.includes(least);
		if (isBest || !taken.take(least)) {
			const contributions = new Float64Array(n);
			taken.members.forEach((member, k) => (contributions[member] = shares[k]!));
			return { contributions, meanKinship: mean, gap: Math.max(0, 2 * (mean - towards[least]!)) };
		}
		shares = improved(taken, [...shares, 0]);
	}
}

/** Moves towards the best mixture of the members; members that reach 0 on the way are put out. */
function improved(taken: Mixture, from: number[]): number[] {
	let shares = from;
	for (;;) {
		const best = taken.bestShares();
		if (best.every((share) => share > 0)) return best;
		let step = 1;
		best.forEach((share, k) => {
			if (share <= 0) step = Math.min(step, shares[k]! / (shares[k]! - share));
		});
		const moved = shares.map((share, k) => share + step * (best[k]! - share));
		const lowest = Math.min(...moved.filter((_, k) => best[k]! <= 0));
		const stay = moved.map((share, k) => !(best[k]! <= 0 && share <= lowest));
		taken.keep(stay);
		shares = moved.filter((_, k) => stay[k]);
	}
}

/** Those who have a share, with the Cholesky factor of their kinships plus 1, row by row. */
class Mixture {
	readonly #table: Float64Array;
	readonly #n: number;
	members: number[] = [];
	#factor: number[][] = [];

	constructor(table: Float64Array, n: number) {
		this.#table = table;
		this.#n = n;
	}

	/** False when the fish adds nothing that a mixture of the others is not. */
	take(fish: number): boolean {
		const row: number[] = [];
		for (const [k, other] of this.members.entries()) {
			let value = this.#table[fish * this.#n + other]! + 1;
			for (let j = 0; j < k; j++) value -= row[j]! * this.#factor[k]![j]!;
			row.push(value / this.#factor[k]![k]!);
		}
		const own = this.#table[fish * this.#n + fish]! + 1;
		const rest = row.reduce((left, value) => left - value * value, own);
		if (!(rest > own * tolerance)) return false;
		this.members.push(fish);
		this.#factor.push([...row, Math.sqrt(rest)]);
		return true;
	}

	keep(stay: readonly boolean[]): void {
		const members = this.members.filter((_, k) => stay[k]);
		this.members = [];
		this.#factor = [];
		for (const member of members) this.take(member);
	}

	/** Shares, of either sign, with sum 1 and the least mean kinship: (K + 1) u = 1, scaled. */
	bestShares(): number[] {
		const L = this.#factor;
		const u: number[] = [];
		for (let k = 0; k < L.length; k++) {
			let value = 1;
			for (let j = 0; j < k; j++) value -= L[k]![j]! * u[j]!;
			u.push(value / L[k]![k]!);
		}
		for (let k = L.length - 1; k >= 0; k--) {
			let value = u[k]!;
			for (let j = k + 1; j < L.length; j++) value -= L[j]![k]! * u[j]!;
			u[k] = value / L[k]![k]!;
		}
		const total = u.reduce((sum, value) => sum + value, 0);
		return u.map((value) => value / total);
	}
}
