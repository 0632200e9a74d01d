import { munkres } from 'munkres';

/**
 * One column for every row, no column twice, with the least sum of costs.
 *
 * @param size rows and columns
 * @param cost of giving this column to this row; finite
 * @returns the column of each row
 */
export function assign(size: number, cost: (row: number, column: number) => number): Int32Array {
	const table = Array.from({ length: size }, (_, row) =>
		Array.from({ length: size }, (_, column) => cost(row, column))
	);
	const chosen = new Int32Array(size);
	for (const [row, column] of munkres(table)) chosen[row] = column;
	return chosen;
}
