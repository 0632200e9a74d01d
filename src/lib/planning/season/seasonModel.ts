import type { Highs, ModelData } from 'highs';
import { lineOrigin, originChange, type LineOrigin } from './geneOrigin.ts';
import { counted } from './ranges.ts';
import type { PossibleBag, SeasonProblem } from './season.ts';
import { halfSibs, seasonFigures, waitingFactor } from './seasonFigures.ts';
import { kindOf } from './seasonStops.ts';
import { isEmpty } from './shares.ts';
import { givingRooms, roomPair } from './traffic.ts';
import { fairLimits } from './wishesKept.ts';

/** A row of a linear model: a sum of columns between two limits. */
export interface ModelRow {
	readonly least: number;
	readonly most: number;
	readonly columns: readonly number[];
	readonly factors: readonly number[];
}

/** The season as a mixed-integer linear model, and where its parts are. */
export interface SeasonModel {
	readonly data: ModelData;
	/** Cost of each column; the first ones are the possible bags in their order. */
	readonly costs: Float64Array;
	/** Added to the sum of costs it gives the objective of `seasonFigures`. */
	readonly offset: number;
	/** Column of each wish that is 1 when the wish is given up; held at 0 at first. */
	readonly giveUp: ReadonlyMap<string, number>;
	/** Columns and costs of the trips: the tie-break counts them. */
	readonly trips: readonly { readonly column: number; readonly cost: number }[];
	readonly origins: readonly LineOrigin[];
	/** For each line the column of its kinship. */
	readonly kinship: readonly number[];
	/** Where the genes of a line come from with so much of each possible bag, 0 to 1, in their order. */
	originOf(line: number, amounts: ArrayLike<number>): Float64Array;
	/** That the kinship of a line lies above its tangent at these origins. */
	tangent(line: number, at: Float64Array): ModelRow;
}

/**
 * The season's exchange as a mixed-integer linear model.
 *
 * A possible bag is 0 or 1. The inbreeding of the next broods is linear in them. The kinship within each line, c'Kc,
 * is a column of its own that tangents hold from below: c is linear in the bags and K has no negative eigenvalue, so
 * each tangent 2 (K c0)'c - c0'K c0 lies below it everywhere. Trips, holders that are missing and rooms that wait are
 * columns too. Every firm wish has a column that gives it up.
 *
 * Source: tangents (outer approximation): Duran & Grossmann 1986, Mathematical Programming 36:307 (from memory); the
 * sum of both kinds of kinship: Fernandez, Toro & Caballero 2008, Genetics 179:683. Cost: bags x places of their line.
 */
export function seasonModel(
	problem: SeasonProblem,
	bags: readonly PossibleBag[],
	{ infinity }: Pick<Highs, 'infinity'>
): SeasonModel {
	const { weights, rooms, holdings, sources, lines, wishes } = problem;
	const costs: number[] = [];
	const lower: number[] = [];
	const upper: number[] = [];
	const whole: (0 | 1)[] = [];
	const rows: ModelRow[] = [];
	const column = (cost: number, most: number, isWhole: 0 | 1, least = 0) => {
		costs.push(cost);
		lower.push(least);
		upper.push(most);
		whole.push(isWhole);
		return costs.length - 1;
	};
	const row = (least: number, most: number, terms: readonly (readonly [number, number])[]) =>
		rows.push({ least, most, columns: terms.map(([at]) => at), factors: terms.map(([, factor]) => factor) });
	const where = (is: (bag: PossibleBag) => number): [number, number][] =>
		bags.flatMap((bag, b) => {
			const factor = is(bag);
			return factor === 0 ? [] : [[b, factor] as [number, number]];
		});

	for (const bag of bags) {
		const holding = holdings[bag.holding]!;
		const mates = counted(bag.mates, weights.worstCase);
		const young = isEmpty(holding) ? mates : bag.share * (mates - counted(holding.within, weights.worstCase));
		const close = bag.mates.expected >= halfSibs ? weights.closeMates : 0;
		const back = bag.sendsBack ? weights.sendBack : 0;
		column(young + close + back + weights.bag * givingRooms(problem, bag).length, 1, 1);
	}

	// What rooms can give and take, and what each group has to spare.
	const from = bags.map((bag) => givingRooms(problem, bag));
	for (const [room, { bagsIn, bagsOut, tanksFree }] of rooms.entries()) {
		const into = where((bag) =>
			holdings[bag.holding]!.room === room ? givingRooms(problem, bag).length : 0
		);
		if (into.length > 0) row(-infinity, Math.min(bagsIn, tanksFree), into);
		const out = bags.flatMap((_, b) => (from[b]!.includes(room) ? [[b, 1] as [number, number]] : []));
		if (out.length > 0) row(-infinity, bagsOut, out);
	}
	for (const [source, { spare }] of sources.entries())
		for (const sex of ['males', 'females', 'unsexed'] as const) {
			const fish = where((bag) =>
				bag.gives.reduce((sum, give) => sum + (give.source === source ? give.fish[sex] : 0), 0)
			);
			if (fish.length > 0) row(-infinity, spare[sex], fish);
		}

	// Bags to one holding: together no more than all its pairs, of one sex; a new holder is founded once.
	for (const [h, holding] of holdings.entries()) {
		const here = bags.flatMap((bag, b) => (bag.holding === h ? [b] : []));
		if (here.length === 0) continue;
		if (isEmpty(holding)) {
			row(
				-infinity,
				1,
				here.map((b) => [b, 1])
			);
			continue;
		}
		// One bag alone may fill all places; several share them.
		row(
			-infinity,
			1 + 1e-9,
			here.map((b) => [b, bags[b]!.share])
		);
		const kinds = Map.groupBy(here, (b) => kindOf(bags[b]!));
		if (kinds.size < 2) continue;
		const chosen = [...kinds].map(([, of]) => {
			const kind = column(0, 1, 1);
			for (const b of of)
				row(-infinity, 0, [
					[b, 1],
					[kind, -1]
				]);
			return kind;
		});
		row(
			-infinity,
			1,
			chosen.map((kind) => [kind, 1])
		);
	}

	// Trips.
	const carried = new Map<number, number[]>();
	for (const [b, bag] of bags.entries()) {
		const to = holdings[bag.holding]!.room;
		for (const room of from[b]!) {
			if (problem.tripCost[room]![to]! === 0) continue;
			const pair = roomPair(problem, room, to);
			carried.set(pair, [...(carried.get(pair) ?? []), b]);
		}
	}
	const capacities = rows.filter(
		({ least, most, columns, factors }) =>
			least === -infinity &&
			most > 0 &&
			columns.every((at) => at < bags.length) &&
			factors.every((factor) => factor > 0)
	);
	const trips = [...carried]
		.sort(([a], [b]) => a - b)
		.map(([pair, of]) => {
			const cost = problem.tripCost[Math.floor(pair / rooms.length)]![pair % rooms.length]!;
			const trip = column(weights.trip * cost, 1, 1);
			for (const b of of)
				row(-infinity, 0, [
					[b, 1],
					[trip, -1]
				]);
			// All bags of one trip together need no more than what a room, a group or a holding has: without these, half
			// a trip would carry half of everything.
			const carries = new Set(of);
			for (const { most, columns, factors } of capacities) {
				const here = columns.flatMap((at, i): [number, number][] =>
					carries.has(at) ? [[at, factors[i]!]] : []
				);
				const all = here.reduce((sum, [, factor]) => sum + factor, 0);
				if (here.length > 1) row(-infinity, 0, [...here, [trip, -Math.min(most, all)]]);
			}
			return { column: trip, cost };
		});

	// Holders that are missing, rooms that wait, kinship within lines.
	const founding = (line: number) =>
		where((bag) => (bag.line === line && isEmpty(holdings[bag.holding]!) ? 1 : 0));
	for (const [l, line] of lines.entries()) {
		const missing = line.wantedHolders - line.holders;
		if (missing > 0 && weights.holder > 0)
			row(missing, infinity, [...founding(l), [column(weights.holder, infinity, 0), 1]]);
	}
	for (const [h, { waiting }] of holdings.entries()) {
		if (waiting < 0 || weights.waiting === 0) continue;
		const unserved = column(weights.waiting * waitingFactor(waiting), 1, 0);
		row(1, infinity, [...where((bag) => (bag.holding === h ? 1 : 0)), [unserved, 1]]);
	}
	const origins = lines.map((_, line) => lineOrigin(problem, line));
	const kinship = origins.map((origin) => column(weights.lambda * origin.holdings.length, 1, 0));

	// Wishes.
	const giveUp = new Map<string, number>();
	for (const wish of wishes) {
		const give = column(0, 0, 1);
		giveUp.set(wish.id, give);
		switch (wish.wish) {
			case 'holders': {
				const least = wish.least - lines[wish.line]!.holders;
				if (least > 0) row(least, infinity, [...founding(wish.line), [give, least]]);
				break;
			}
			case 'newBlood':
				row(1, infinity, [...where((bag) => (bag.holding === wish.holding ? 1 : 0)), [give, 1]]);
				break;
			case 'bag':
				row(1, infinity, [...where((bag) => (bag.key === wish.key ? 1 : 0)), [give, 1]]);
				break;
			case 'trips':
				row(-infinity, wish.most, [
					...trips.map((trip) => [trip.column, 1] as const),
					[give, -Math.max(1, trips.length)]
				]);
				break;
			case 'bags': {
				const all = where((bag) => givingRooms(problem, bag).length);
				row(-infinity, wish.most, [...all, [give, -Math.max(1, 2 * bags.length)]]);
				break;
			}
			case 'fair':
				for (const [room, { balance }] of rooms.entries()) {
					const moved = bags.flatMap((bag, b): [number, number][] => {
						const out = from[b]!.includes(room) ? 1 : 0;
						const into = holdings[bag.holding]!.room === room ? from[b]!.length : 0;
						return out === into ? [] : [[b, out - into]];
					});
					if (moved.length === 0) continue;
					const [least, most] = fairLimits(balance, wish.most);
					const slack = 2 * moved.length + Math.abs(balance) + wish.most;
					row(-infinity, most - balance, [...moved, [give, -slack]]);
					row(least - balance, infinity, [...moved, [give, slack]]);
				}
		}
	}

	const starts = [0];
	const indices: number[] = [];
	const values: number[] = [];
	for (const { columns, factors } of rows) {
		indices.push(...columns);
		values.push(...factors);
		starts.push(indices.length);
	}
	const matrix = {
		format: 'csr' as const,
		numRows: rows.length,
		numCols: costs.length,
		starts,
		indices,
		values
	};
	const changes = bags.map((bag) => originChange(problem, origins[bag.line]!, bag));
	return {
		data: {
			...{ numCols: costs.length, numRows: rows.length, matrix },
			...{ colCost: costs, colLower: lower, colUpper: upper, integrality: whole },
			rowLower: rows.map(({ least }) => least),
			rowUpper: rows.map(({ most }) => most)
		},
		costs: Float64Array.from(costs),
		offset: offsetOf(problem),
		giveUp,
		trips,
		origins,
		kinship,
		originOf(line, chosen) {
			const origin = origins[line]!;
			const c = origin.stay.slice();
			for (const [b, bag] of bags.entries()) {
				const much = chosen[b]!;
				if (bag.line !== line || much === 0) continue;
				const { places, amounts, stayLess } = changes[b]!;
				for (const [i, place] of places.entries()) c[place]! += much * amounts[i]!;
				if (stayLess > 0) for (let i = 0; i < c.length; i++) c[i]! -= much * stayLess * origin.stay[i]!;
			}
			return c;
		},
		tangent(line, at) {
			const { kinship: k, stay } = origins[line]!;
			const slope = Float64Array.from(at, (_, i) => at.reduce((sum, c, j) => sum + k[i]![j]! * c, 0));
			const height = at.reduce((sum, c, i) => sum + c * slope[i]!, 0);
			const ofStay = stay.reduce((sum, c, i) => sum + c * slope[i]!, 0);
			const columns = [kinship[line]!];
			const factors = [1];
			for (const [b, bag] of bags.entries()) {
				if (bag.line !== line) continue;
				const { places, amounts, stayLess } = changes[b]!;
				const moved =
					places.reduce((sum, place, i) => sum + amounts[i]! * slope[place]!, 0) - stayLess * ofStay;
				if (moved === 0) continue;
				columns.push(b);
				factors.push(-2 * moved);
			}
			return { least: 2 * ofStay - height, most: infinity, columns, factors };
		}
	};
}

/** The part of the objective that no bag changes. */
function offsetOf(problem: SeasonProblem): number {
	const { weights, holdings, lines } = problem;
	const stays = seasonFigures(problem, []);
	let beside = 0;
	for (const [l, { kinshipBefore }] of stays.lines.entries())
		beside += weights.lambda * holdings.filter(({ line }) => line === l).length * kinshipBefore;
	for (const { wantedHolders, holders } of lines)
		beside += weights.holder * Math.max(0, wantedHolders - holders);
	for (const { waiting } of holdings) if (waiting >= 0) beside += weights.waiting * waitingFactor(waiting);
	return stays.objective - beside;
}
