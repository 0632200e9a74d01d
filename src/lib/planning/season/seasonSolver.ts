import type { Highs, Model } from 'highs';
import type { PossibleBag } from './season.ts';
import type { SeasonModel } from './seasonModel.ts';

export interface Found {
	/** null = nothing was found in time. */
	readonly bags: PossibleBag[] | null;
	/** All plans that were met on the way, that one among them. */
	readonly met: readonly PossibleBag[][];
	/** No plan within the rows so far has a smaller objective. */
	readonly bound: number;
	readonly isOptimal: boolean;
}

/** Tangents of parts of bags come ever closer; after so many rounds, a sixth of the time, or when they gain less, whole bags are asked for. */
const mostRounds = 40;
const leastGain = 1e-4;
/**
 * With fewer bags than this good plans are met soon, and all time goes to the bound; with more, the time is best spent on
 * looking for better plans.
 */
const manyBags = 2_000;
/** A pivot this far below 0 is no rounding. */
const negativePivot = -1e-9;

/** One season in the solver: the same model asked again with more rows, other bounds or another aim. */
export class SeasonSolver {
	readonly #highs: Highs;
	readonly #model: SeasonModel;
	readonly #bags: readonly PossibleBag[];
	readonly #deadline: number;
	readonly #solver: Model;
	readonly #held = new Set<string>();
	#givenUp: string[] = [];
	/** All lines' kinships have no negative eigenvalue, so that every tangent holds. */
	readonly isConvex: boolean;

	constructor(highs: Highs, model: SeasonModel, bags: readonly PossibleBag[], deadline: number) {
		this.#highs = highs;
		this.#model = model;
		this.#bags = bags;
		this.#deadline = deadline;
		this.#solver = highs.createModel(model.data);
		this.#solver.options.set({
			output_flag: false,
			mip_rel_gap: 0,
			mip_abs_gap: 0,
			mip_feasibility_tolerance: 1e-9,
			primal_feasibility_tolerance: 1e-9,
			dual_feasibility_tolerance: 1e-9
		});
		if (bags.length < manyBags)
			this.#solver.options.set({
				mip_heuristic_run_rens: false,
				mip_heuristic_run_rins: false,
				mip_heuristic_run_root_reduced_cost: false,
				mip_pscost_minreliable: 1
			});
		this.isConvex = model.origins.every(({ kinship }) => hasNoNegativeEigenvalue(kinship));
	}

	get givenUp(): readonly string[] {
		return this.#givenUp;
	}

	/** Whether some plan keeps every firm wish, or all but these. */
	canKeepAll(but: readonly string[] = []): boolean {
		this.#release(but);
		this.#aim(() => 0);
		return this.#run().bags !== null;
	}

	/** The fewest wishes to give up; of equally many, the last ones. */
	leastGivenUp(): string[] {
		const wishes = [...this.#model.giveUp];
		this.#release(wishes.map(([id]) => id));
		const cost = new Map(
			wishes.map(([, column], i) => [column, 1 + (wishes.length - i) / (wishes.length + 1) ** 2])
		);
		this.#aim((column) => cost.get(column) ?? 0);
		const { values } = this.#run();
		return values === null
			? wishes.map(([id]) => id)
			: wishes.flatMap(([id, column]) => (values[column]! > 0.5 ? [id] : []));
	}

	/** From now on these wishes need not be kept. */
	giveUp(wishes: readonly string[]): void {
		this.#givenUp = [...wishes];
	}

	/**
	 * @param start a plan within all rows to go on from
	 * @param gap how far from the best the answer may be: while the tangents are few, more would be in vain
	 */
	solve(start: readonly PossibleBag[] | null, gap: number): Found {
		this.#release(this.#givenUp);
		this.#aim((column) => this.#model.costs[column]!);
		this.#solver.options.set('mip_abs_gap', gap);
		if (start) {
			const chosen = new Set(start);
			const values = Float64Array.from(this.#bags, (bag) => (chosen.has(bag) ? 1 : 0));
			this.#solver.setSolution({ indices: Int32Array.from(this.#bags.keys()), values });
		}
		const { bags, met, isOptimal, bound } = this.#run(gap);
		this.#solver.options.set('mip_abs_gap', 0);
		return { bags, met, isOptimal, bound: bound + this.#model.offset };
	}

	/** Holds every line's kinship above its tangent at these bags. @returns whether that said anything new */
	holdKinshipAt(bags: readonly PossibleBag[]): boolean {
		const chosen = new Set(bags);
		return this.#holdKinship(this.#bags.map((bag) => (chosen.has(bag) ? 1 : 0)));
	}

	/**
	 * Tangents where the best parts of bags would be: found in no time, they hold near the best plan too.
	 *
	 * @returns what no plan can go below
	 */
	holdKinshipByParts(): number {
		this.#release(this.#givenUp);
		this.#aim((column) => this.#model.costs[column]!);
		const { data } = this.#model;
		const all = { kind: 'range', from: 0, to: data.numCols - 1 } as const;
		this.#solver.changeColsIntegrality(all, new Int32Array(data.numCols) as never);
		let reached = -Infinity;
		const enough = performance.now() + (this.#deadline - performance.now()) / 6;
		for (let round = 0; round < mostRounds && performance.now() < enough; round++) {
			const { values, bound, isOptimal } = this.#run();
			if (!values || !isOptimal) break;
			const gain = bound - reached;
			reached = Math.max(reached, bound);
			if (!this.#holdKinship(values) || gain < leastGain) break;
		}
		this.#solver.changeColsIntegrality(all, data.integrality!);
		return reached + this.#model.offset;
	}

	#holdKinship(amounts: ArrayLike<number>): boolean {
		let isNew = false;
		for (const line of this.#model.origins.keys()) {
			if (this.#model.costs[this.#model.kinship[line]!] === 0) continue;
			const at = this.#model.originOf(line, amounts);
			const name = `${line}:${Array.from(at, (share) => share.toFixed(9)).join()}`;
			if (this.#held.has(name)) continue;
			this.#held.add(name);
			const { least, most, columns, factors } = this.#model.tangent(line, at);
			this.#solver.addRow(least, most, { indices: [...columns], values: [...factors] });
			isNew = true;
		}
		return isNew;
	}

	/**
	 * Of all plans as good as this one, the first: by the cost of trips, then by keys.
	 *
	 * @param objective its objective, which is proven to be the least
	 * @param within so much more counts as the same
	 */
	firstOfEquals(best: PossibleBag[], objective: number, within: number): PossibleBag[] {
		const { costs, offset, trips } = this.#model;
		const columns = [...costs.keys()].filter((column) => costs[column] !== 0);
		const most = objective - offset + within;
		this.#solver.addRow(-this.#highs.infinity, most, {
			indices: columns,
			values: columns.map((column) => costs[column]!)
		});
		const tripCost = new Map(trips.map(({ column, cost }) => [column, cost]));
		const n = this.#bags.length;
		this.#release(this.#givenUp);
		// Each bag weighs a little, no two alike, all together less than any trip.
		this.#aim((column) =>
			column < n ? (1e-3 * weightOf(this.#bags[column]!.key)) / n : (tripCost.get(column) ?? 0)
		);
		const { bags, isOptimal } = this.#run();
		return isOptimal && bags ? bags : best;
	}

	dispose(): void {
		this.#solver.dispose();
	}

	#release(wishes: readonly string[]): void {
		for (const [id, column] of this.#model.giveUp)
			this.#solver.changeColBounds(column, 0, wishes.includes(id) ? 1 : 0);
	}

	#aim(cost: (column: number) => number): void {
		const { costs } = this.#model;
		this.#solver.changeColsCost(
			{ kind: 'range', from: 0, to: costs.length - 1 },
			Float64Array.from(costs, (_, column) => cost(column))
		);
	}

	#run(gap = 0): Found & { readonly values: Float64Array | null } {
		const { modelStatus, callbackType } = this.#highs.constants;
		const left = (this.#deadline - performance.now()) / 1_000;
		const met: PossibleBag[][] = [];
		const nothing = { bags: null, met, values: null, bound: -Infinity, isOptimal: false };
		if (left <= 0) return nothing;
		this.#solver.options.set('time_limit', this.#solver.getRunTime() + left);
		this.#solver.run({
			[callbackType.mipSolution]: ({ data }) => {
				if (data.mip_solution) met.push(this.#bagsIn(data.mip_solution));
			}
		});
		const status = this.#solver.getModelStatus();
		if (status === modelStatus.infeasible) return { ...nothing, bound: Infinity };
		const isOptimal = status === modelStatus.optimal;
		const bound =
			isOptimal && gap === 0
				? this.#solver.getObjectiveValue()
				: Number(this.#solver.info.get('mip_dual_bound'));
		const values = this.#solver.getSolution().colValue;
		const hasSolution =
			values.length > 0 && (isOptimal || Number(this.#solver.info.get('primal_solution_status')) === 2);
		if (!hasSolution) return { ...nothing, bound };
		const bags = this.#bagsIn(values);
		return { bags, met: [...met, bags], values, bound, isOptimal };
	}

	#bagsIn(values: ArrayLike<number>): PossibleBag[] {
		return this.#bags.filter((_, b) => values[b]! > 0.5);
	}
}

/** A number from 0.5 to 1 that hangs on the letters alone (Fowler, Noll & Vo's hash, from memory). */
function weightOf(key: string): number {
	let hash = 0x811c9dc5;
	for (let i = 0; i < key.length; i++) hash = Math.imul(hash ^ key.charCodeAt(i), 0x01000193) >>> 0;
	return 0.5 + hash / 2 ** 33;
}

/** Elimination of a symmetric matrix: all pivots are 0 or more when no eigenvalue is negative. */
function hasNoNegativeEigenvalue(matrix: readonly (readonly number[])[]): boolean {
	const left = matrix.map((row) => Float64Array.from(row));
	for (let k = 0; k < left.length; k++) {
		const pivot = left[k]![k]!;
		if (pivot < negativePivot) return false;
		if (pivot <= -negativePivot) {
			// A pivot of 0 needs a row of 0.
			for (let j = k + 1; j < left.length; j++) if (Math.abs(left[k]![j]!) > 1e-6) return false;
			continue;
		}
		for (let i = k + 1; i < left.length; i++) {
			const factor = left[i]![k]! / pivot;
			if (factor !== 0) for (let j = k; j < left.length; j++) left[i]![j]! -= factor * left[k]![j]!;
		}
	}
	return true;
}
