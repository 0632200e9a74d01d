/** One fish as a record tells of it; `null` = not known, its own unrelated founder. */
export interface FishRecord {
	readonly id: string;
	readonly mother: string | null;
	readonly father: string | null;
}

/** Fish in an order in which parents come before their young. */
export interface Pedigree {
	readonly ids: readonly string[];
	/** Place of the mother in `ids`; -1 = not known. */
	readonly mother: Int32Array;
	readonly father: Int32Array;
}
