import { describe, expect, it } from 'vitest';
import { countWords, keepPure, letterSize, type BagLabelData } from '#ui/labels/bagLabel.ts';
import { qrPath } from '#ui/labels/qrPath.ts';

const label: BagLabelData = {
	number: '0417 K',
	code: '0417K',
	lineName: 'Zacapu goodeid',
	lineCode: 'GO-01',
	kind: 'conservation',
	locality: 'Laguna de Zacapu, Michoacán, Mexico',
	fish: { males: 2, females: 3, unsexed: 0 },
	bagged: 'Sat 14 March 19:20',
	from: 'Harbour room',
	to: ''
};

describe('bag labels', () => {
	it('a conservation line says so, in capitals', () => {
		expect(keepPure(label)).toBe('CONSERVATION LINE – DO NOT CROSS');
		expect(keepPure({ ...label, kind: null })).toBe('');
	});

	it('longer text gets smaller letters, never larger ones', () => {
		const sizes = [0, 40, 80, 160, 400].map((more) => letterSize({ ...label, locality: 'x'.repeat(more) }));
		expect(sizes).toEqual([...sizes].sort((a, b) => b - a));
		expect(sizes[0]).toBeGreaterThan(sizes[4] ?? 0);
	});
});

describe('the square code', () => {
	// ISO/IEC 18004: version 1 has 21 modules a side, a quiet zone of 4 on each side; a finder pattern is 7 modules wide.
	it('qrPath of a bag number is a version 1 symbol with its quiet zone and three finder patterns', () => {
		const { size, path } = qrPath('0417K');
		expect(size).toBe(21 + 8);
		const dark = new Set(path.match(/M\d+ \d+/g));
		for (const [left, top] of [
			[4, 4],
			[18, 4],
			[4, 18]
		] as const) {
			for (let i = 0; i < 7; i++) {
				expect(dark.has(`M${left + i} ${top}`), `finder at ${left},${top}`).toBe(true);
				expect(dark.has(`M${left} ${top + i}`)).toBe(true);
			}
			expect(dark.has(`M${left + 1} ${top + 1}`)).toBe(false);
		}
		for (const place of dark) expect(place).toMatch(/^M([4-9]|1\d|2[0-4]) ([4-9]|1\d|2[0-4])$/);
	});

	it('qrPath refuses no text and too much text', () => {
		expect(() => qrPath('')).toThrow(RangeError);
		expect(() => qrPath('x'.repeat(301))).toThrow(RangeError);
	});
});

describe('the count on a label', () => {
	it('says young that nobody has sexed in words', () => {
		expect(countWords({ ...label, fish: { males: 0, females: 0, unsexed: 6 } })).toBe('6 young, not sexed');
		expect(countWords({ ...label, certainty: 'about' })).toBe('about 2m 3f');
		expect(countWords({ ...label, fish: null })).toBe('');
	});
});
