/** Genes of founders for gene drops: fish with a stated inbreeding and kinship, as copies out of common pools. */
import type { FoundersEvent, UnitId } from '../groups/event.ts';

/** Where one side of a founder's genes comes from: each draw is a number that tells genes apart. */
type Pool = () => number;

interface Source {
	/** The founders whose pools these are. */
	readonly root: UnitId;
	/** Chance that at one place the genes come out of the pools of the root. */
	readonly share: number;
	readonly pools: readonly [Pool, Pool];
	readonly within: number;
	readonly inbreeding: number;
}

const rounding = 1e-9;

/**
 * Two genes of one pool are copies with chance c: k genes equally likely and, where 1/c is not whole, one more that
 * is less likely. A brood of one pair has two genes on each side, as it should.
 */
function poolOf(chance: number, fresh: () => number, random: () => number): Pool {
	if (chance <= rounding) return fresh;
	const k = Math.floor(1 / chance + rounding);
	const genes = Array.from({ length: k }, fresh);
	const last = fresh();
	const root = Math.sqrt(Math.max(0, 1 / k ** 2 - (1 + 1 / k) * (1 / k - chance)));
	const odd = Math.max(0, (1 / k - root) / (1 + 1 / k));
	return () => (random() < odd ? last : genes[Math.floor(random() * k)]!);
}

/** Makes founders one unit after the other; throws a RangeError for kinships that no such pools have. */
export class FounderGenes {
	readonly #sources = new Map<UnitId, Source>();
	readonly #fresh: () => number;
	readonly #random: () => number;

	constructor(fresh: () => number, random: () => number) {
		this.#fresh = fresh;
		this.#random = random;
	}

	/** A function that gives one fish after another: its genes of one place, of the father and of the mother. */
	founder(event: FoundersEvent): () => readonly [number, number] {
		const source = this.#sourceOf(event);
		this.#sources.set(event.unit, source);
		const { within, inbreeding } = source;
		// One pool for both sides where the fish are nearly all alike, two where a fish's parents were no kin.
		const single = chanceOfPair(within, inbreeding) > 1 + rounding;
		const copy = single ? (within < 1 ? (inbreeding - within) / (1 - within) : 0) : inbreeding;
		return () => {
			const first = source.pools[0]();
			return [first, this.#random() < copy ? first : source.pools[single ? 0 : 1]()];
		};
	}

	#sourceOf(event: FoundersEvent): Source {
		const { unit, within = 0, inbreeding = 0 } = event;
		const related = (event.related ?? []).filter(({ kinship }) => kinship > 0);
		const chance = chanceOfPair(within, inbreeding);
		const single = chance > 1 + rounding;
		if (single && within > inbreeding + rounding) throw cannot(event);
		const make = (c: number): [Pool, Pool] => [
			poolOf(c, this.#fresh, this.#random),
			poolOf(c, this.#fresh, this.#random)
		];
		if (related.length === 0)
			return { root: unit, share: 1, pools: make(single ? within : chance), within, inbreeding };
		const first = this.#sources.get(related[0]!.unit);
		const root = first && this.#sources.get(first.root);
		if (!root || single || Math.abs(root.inbreeding - inbreeding) > rounding) throw cannot(event);
		const share = related[0]!.kinship / (first.share * root.within);
		if (!(share <= 1 + rounding)) throw cannot(event);
		this.#mustFit(event, first.root, share, root.within);
		// At each place all fish of the unit draw out of the pools of the root, or all out of pools of their own.
		const own = share > 1 - rounding ? root.within : (within - share * root.within) / (1 - share);
		const ownChance = chanceOfPair(own, inbreeding);
		const fits = share <= 1 - rounding || Math.abs(within - root.within) <= rounding;
		if (!fits || own < -rounding || ownChance > 1 + rounding) throw cannot(event);
		const pools = this.#random() < share ? root.pools : make(Math.max(0, ownChance));
		return { root: first.root, share, pools, within, inbreeding };
	}

	/** All units out of the same pools must have the kinship that sharing these gives. */
	#mustFit(event: FoundersEvent, root: UnitId, share: number, within: number): void {
		for (const [unit, source] of this.#sources) {
			const said = event.related?.find((one) => one.unit === unit)?.kinship ?? 0;
			const is = source.root === root ? share * source.share * within : 0;
			if (Math.abs(said - is) > rounding) throw cannot(event);
		}
	}
}

/** Chance of copies within each of two pools that gives two fish this kinship, each fish this inbreeding. */
function chanceOfPair(within: number, inbreeding: number): number {
	return (2 * within) / (1 + inbreeding ** 2);
}

function cannot(event: FoundersEvent): RangeError {
	return new RangeError(
		`dropGenes requires founders with kinships of common sources, got others for ${JSON.stringify(event.unit)}`
	);
}
