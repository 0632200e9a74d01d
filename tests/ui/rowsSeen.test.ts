import { expect, it } from 'vitest';
import { rowsSeen } from '#ui/figures/rowsSeen.ts';

it('rowsSeen: whatever is seen is there, and a little more on both sides', () => {
	for (const [scrolled, shown, row] of [
		[0, 500, 50],
		[1000, 500, 50],
		[1234.5, 617, 48.9],
		[19000, 300, 49]
	] as const) {
		const { from, to } = rowsSeen(scrolled, shown, row);
		expect(from * row).toBeLessThanOrEqual(Math.max(0, scrolled - 5 * row));
		expect(to * row).toBeGreaterThanOrEqual(scrolled + shown + 5 * row);
		expect(to - from).toBeLessThan(shown / row + 32);
	}
});
