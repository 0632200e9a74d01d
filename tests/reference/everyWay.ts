/**
 * The slowest, most obvious version of group kinship: every single fish, and every way in which the draws that the
 * events leave to chance could have gone, each with its chance. Only Mendel's chance is not played out: kinship of
 * single fish is by the rule of Wright 1922 and Malecot 1948, young by young. So it is exact, and shares no formula
 * about groups with the recursion: no within, no two draws with replacement, no candidate taken for a mean.
 */
import type { GroupEvent, ParentSide, UnitId } from '#genetics/groups/event.ts';

/** What is asked of one way: means over its fish. */
export interface Way {
	inbreeding(unit: UnitId): number;
	within(unit: UnitId): number;
	between(a: UnitId, b: UnitId): number;
	readonly units: readonly UnitId[];
	readonly fish: ReadonlyMap<UnitId, readonly number[]>;
}

/** Kinship of all single fish so far; it grows and shrinks as ways are tried. */
class Fishes {
	readonly rows: number[][] = [];
	wild(): number {
		return this.#add(
			this.rows.map(() => 0),
			0.5
		);
	}
	young(father: number, mother: number): number {
		const row = this.rows.map((_, other) => (this.phi(father, other) + this.phi(mother, other)) / 2);
		return this.#add(row, (1 + this.phi(father, mother)) / 2);
	}
	phi(a: number, b: number): number {
		return a > b ? this.rows[a]![b]! : this.rows[b]![a]!;
	}
	backTo(size: number): void {
		this.rows.length = size;
	}
	#add(row: number[], self: number): number {
		this.rows.push([...row, self]);
		return this.rows.length - 1;
	}
}

/** A drawn parent: a fish, or an outside fish of this side that is made when it is first needed. */
type Drawn = number | 'outside';

/** Calls `leaf` with every way and its chance; the chances sum to 1. Throws beyond `most` ways. */
export function everyWay(
	events: readonly GroupEvent[],
	leaf: (way: Way, chance: number) => void,
	most = 2e6
): void {
	const fishes = new Fishes();
	let left = most;
	const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

	const go = (place: number, held: ReadonlyMap<UnitId, readonly number[]>, chance: number): void => {
		const event = events[place];
		if (chance === 0) return;
		if (!event) {
			if (left-- === 0) throw new RangeError('too many ways');
			const of = (unit: UnitId) => held.get(unit)!;
			leaf(
				{
					units: [...held.keys()],
					fish: held,
					inbreeding: (unit) => mean(of(unit).map((one) => 2 * fishes.phi(one, one) - 1)),
					within: (unit) =>
						mean(of(unit).flatMap((a) => of(unit).flatMap((b) => (a === b ? [] : [fishes.phi(a, b)])))),
					between: (a, b) => mean(of(a).flatMap((x) => of(b).map((y) => fishes.phi(x, y))))
				},
				chance
			);
			return;
		}
		const size = fishes.rows.length;
		const next = (changes: readonly (readonly [UnitId, readonly number[]])[], share: number) => {
			go(place + 1, new Map([...held, ...changes]), chance * share);
		};
		if (event.kind === 'founders') {
			const parents = event.within === 0.25 ? [fishes.wild(), fishes.wild()] : null;
			const make = () => (parents ? fishes.young(parents[0]!, parents[1]!) : fishes.wild());
			next([[event.unit, Array.from({ length: event.count }, make)]], 1);
		} else if (event.kind === 'split') {
			const all = held.get(event.from)!;
			const ways = chosen(all, event.count);
			for (const gone of ways) {
				const stayed = all.filter((one) => !gone.includes(one));
				next(
					[[event.unit, gone], ...(stayed.length ? [[event.from, stayed] as const] : [])],
					1 / ways.length
				);
			}
		} else if (event.kind === 'count') {
			const ways = event.count === 0 ? [held.get(event.unit)!] : chosen(held.get(event.unit)!, event.count);
			for (const there of ways) next([[event.unit, there]], 1 / ways.length);
		} else if (event.kind === 'merge') next([[event.unit, event.of.flatMap((unit) => held.get(unit)!)]], 1);
		else if (event.kind === 'oneOf') {
			for (const { units, weight } of event.from) {
				const take = (
					k: number,
					changes: readonly (readonly [UnitId, readonly number[]])[],
					share: number
				): void => {
					const made = event.units[k];
					if (!made) return next(changes, share);
					const there = new Map([...held, ...changes]).get(units[k]!)!;
					const ways = chosen(there, made.count);
					for (const gone of ways) {
						const stayed = there.filter((one) => !gone.includes(one));
						take(k + 1, [...changes, [made.unit, gone], [units[k]!, stayed]], share / ways.length);
					}
				};
				take(0, [], weight);
			}
		} else if (event.kind === 'spawn') {
			const count = event.young.reduce((sum, { count }) => sum + count, 0);
			for (const fathers of drawsOf(event.fathers, held, count))
				for (const mothers of drawsOf(event.mothers, held, count)) {
					const fishOf = (drawn: readonly Drawn[]) => {
						const outside = drawn.includes('outside') ? fishes.wild() : -1;
						return drawn.map((one) => (one === 'outside' ? outside : one));
					};
					const [f, m] = [fishOf(fathers.of), fishOf(mothers.of)];
					const born = f.map((father, i) => fishes.young(father, m[i]!));
					const changes: [UnitId, readonly number[]][] = [];
					if (event.fathers.name !== undefined) changes.push([event.fathers.name, [f[0]!]]);
					if (event.mothers.name !== undefined) changes.push([event.mothers.name, [m[0]!]]);
					let from = 0;
					for (const { unit, count: of } of event.young) changes.push([unit, born.slice(from, (from += of))]);
					next(changes, fathers.chance * mothers.chance);
					fishes.backTo(size);
				}
		} else throw new RangeError(`not played out here: ${event.kind}`);
		fishes.backTo(size);
	};
	go(0, new Map(), 1);
}

/** The parents of so many young on one side, in every way. */
function drawsOf(
	side: ParentSide,
	held: ReadonlyMap<UnitId, readonly number[]>,
	young: number
): { of: Drawn[]; chance: number }[] {
	const single = side.from.flatMap(({ unit, weight }): { of: Drawn; chance: number }[] => {
		if (unit === null) return [{ of: 'outside', chance: weight }];
		const all = held.get(unit)!;
		return all.map((of) => ({ of, chance: weight / all.length }));
	});
	if (side.draw === 'one')
		return single.map(({ of, chance }) => ({ of: Array<Drawn>(young).fill(of), chance }));
	let ways: { of: Drawn[]; chance: number }[] = [{ of: [], chance: 1 }];
	for (let i = 0; i < young; i++)
		ways = ways.flatMap((way) =>
			single.map(({ of, chance }) => ({ of: [...way.of, of], chance: way.chance * chance }))
		);
	return ways;
}

/** Every choice of so many out of a list. */
function chosen<T>(list: readonly T[], count: number): T[][] {
	if (count === 0) return [[]];
	return list.flatMap((first, i) => chosen(list.slice(i + 1), count - 1).map((rest) => [first, ...rest]));
}
