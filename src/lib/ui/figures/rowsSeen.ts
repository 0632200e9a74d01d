/** Rows, or columns, from the first one to before the last one. */
export interface Seen {
	readonly from: number;
	readonly to: number;
}

/** So many are there before they are seen, and they come and go by as many. */
const ahead = 6;

/**
 * Rows seen: which rows of a long table must be there?
 *
 * @param scrolled how far it was moved, and how much of it is seen, and how high a row is; all in pixels
 * @example
 * rowsSeen(0, 500, 50) // => { from: 0, to: 24 }
 * rowsSeen(1000, 500, 50) // => { from: 12, to: 42 }
 */
export function rowsSeen(scrolled: number, shown: number, row: number): Seen {
	const first = Math.floor(scrolled / row / ahead) * ahead;
	const last = Math.ceil((scrolled + shown) / row / ahead) * ahead;
	return { from: Math.max(0, first - ahead), to: last + 2 * ahead };
}
