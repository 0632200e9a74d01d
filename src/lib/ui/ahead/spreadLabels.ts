/**
 * Heights of labels, moved as little as needed so that none lies on another.
 *
 * @param heights where they would stand
 * @param apart least distance
 * @example
 * spread([10, 10], 14, 0, 100) // => [10, 24]
 */
export function spread(heights: readonly number[], apart: number, top: number, bottom: number): number[] {
	const order = heights.map((height, i) => ({ height, i })).sort((a, b) => a.height - b.height || a.i - b.i);
	const placed = [...heights];
	let above = top - apart;
	for (const { height, i } of order) above = placed[i] = Math.max(height, above + apart);
	let below = bottom + apart;
	for (const { i } of order.toReversed()) below = placed[i] = Math.min(placed[i]!, below - apart);
	return placed;
}
