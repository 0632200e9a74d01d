import { describe, expect, it } from 'vitest';
import { figureText, inTen, rangeInTen } from '#ui/figures/inTen.ts';
import { cellFigure, kinshipSigns, kinshipSteps } from '#ui/figures/kinshipSigns.ts';

describe('shares as people say them', () => {
	it.each([
		[0, 'none'],
		[0.02, 'next to none'],
		[0.06, 'about 1 in 10'],
		[0.81, 'about 8 in 10'],
		[0.949, 'about 9 in 10'],
		[0.97, 'nearly all'],
		[1, 'all']
	])('%f is %s', (share, words) => expect(inTen(share)).toBe(words));

	it('a range never promises more than the figures: down below, up above', () => {
		expect(rangeInTen(0.72, 0.88)).toBe(' (between 7 and 9)');
		expect(rangeInTen(0.7, 0.8)).toBe(' (between 7 and 8)');
		expect(rangeInTen(0.498, 0.61)).toBe(' (between 5 and 7)');
		expect(rangeInTen(0.494, 0.606)).toBe(' (between 4 and 7)');
		expect(rangeInTen(0.81, 0.81)).toBe('');
	});

	it('a figure shows its range where one can see it', () => {
		expect(figureText({ expected: 0.812, least: 0.72, greatest: 0.88 })).toBe('0.81, between 0.72 and 0.88');
		expect(figureText({ expected: 0.812, least: 0.811, greatest: 0.813 })).toBe('0.81');
	});
});

describe('cells of the kinship table', () => {
	it('each step has a sign of its own, so that nobody needs the shade', () => {
		const letters = kinshipSteps.map((step) => kinshipSigns[step].letter);
		expect(new Set(letters).size).toBe(letters.length);
	});

	it('the closer, the darker', () => {
		const shades = (['closer', 'siblings', 'halfSiblings', 'cousins', 'distant', 'none'] as const).map(
			(step) => kinshipSigns[step].shade
		);
		expect(shades).toEqual(shades.toSorted((a, b) => b - a));
	});

	it('a figure stands only where something is known to be shared', () => {
		expect(cellFigure('halfSiblings', 0.125)).toBe('.13');
		expect(cellFigure('none', 0)).toBe('');
		expect(cellFigure('notKnown', 0)).toBe('');
	});
});
