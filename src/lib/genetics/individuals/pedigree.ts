/** One fish as a record tells of it; `null` = not known, its own unrelated founder. */
export interface FishRecord {
	readonly id: string;
	readonly mother: string | null;
	readonly father: string | null;
}

/** The same with what else may be known of it; what is absent or `null` is not known. */
export interface DatedFishRecord extends FishRecord {
	readonly sex?: 'male' | 'female' | null;
	/** Day of birth, counted in days from any day that is the same for all fish. */
	readonly born?: number | null;
}

/** Fish in an order in which parents come before their young. */
export interface Pedigree {
	readonly ids: readonly string[];
	/** Place of the mother in `ids`; -1 = not known. */
	readonly mother: Int32Array;
	readonly father: Int32Array;
}

/** Refuses young before their parents, and places that are none. `asker` is the function that requires it. */
export function requireParentsFirst({ ids, mother, father }: Pedigree, asker: string): void {
	for (let i = 0; i < ids.length; i++)
		if (mother[i]! >= i || father[i]! >= i)
			throw new RangeError(`${asker} requires parents before young, got ${ids[i]} too early`);
}
