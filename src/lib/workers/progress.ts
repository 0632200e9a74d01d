/** How far a task has come. */
export interface Progress {
	/** Steps done of all; both whole numbers. */
	readonly done: number;
	readonly of: number;
	/** An answer that can be shown already; the final one may be better. */
	readonly soFar?: unknown;
}
