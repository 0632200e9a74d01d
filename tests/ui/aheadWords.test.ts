import { expect, test } from 'vitest';
import { chanceWords, lessWords } from '#ui/ahead/chanceWords.ts';
import { spread } from '#ui/ahead/spreadLabels.ts';

test('a chance in words says no less and no more than the figure', () => {
	expect([0.0001, 0.004, 0.126, 0.998].map(chanceWords)).toEqual([
		'less than 1 in 1,000',
		'less than 1 in 100',
		'about 13 in 100',
		'nearly certain'
	]);
});

test('one more room: halved only where it is, with how far that may be off', () => {
	const left = (expected: number, low = expected, high = expected) => ({ expected, low, high });
	expect(lessWords(0.2, left(0.5))).toBe('One more room would halve it.');
	expect(lessWords(0.2, left(0.5, 0.33, 0.61))).toBe(
		'One more room would halve it; as far as the record tells, it would leave 33 to 61 in 100 of it.'
	);
	expect(lessWords(0.2, left(0.65))).toBe('One more room would bring it down to about 13 in 100.');
	expect(lessWords(0.2, left(0.1))).toMatch(/less than a quarter of it, about 2 in 100/);
	expect(lessWords(0.2, left(0.97))).toBe('One more room would change little.');
	expect(lessWords(0.0001, left(0.5))).toBe('One more room would change little.');
});

test('labels stand apart, inside their frame, in the order of their curves', () => {
	const placed = spread([100, 100, 99, 5], 14, 10, 110);
	expect(placed.every((height) => height >= 10 && height <= 110)).toBe(true);
	expect(placed.toSorted((a, b) => a - b).every((height, i, all) => !i || height - all[i - 1]! >= 14)).toBe(
		true
	);
	expect(placed[3]).toBe(Math.min(...placed));
});
