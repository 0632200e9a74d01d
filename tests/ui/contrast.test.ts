import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

// WCAG 2.2, "relative luminance" and "contrast ratio": https://www.w3.org/TR/WCAG22/#dfn-contrast-ratio
function luminance(hex: string): number {
	const [r = 0, g = 0, b = 0] = [1, 3, 5]
		.map((at) => parseInt(hex.slice(at, at + 2), 16) / 255)
		.map((part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4));
	return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}
function contrast(one: string, other: string): number {
	const [light = 0, dark = 0] = [luminance(one), luminance(other)].sort((a, b) => b - a);
	return (light + 0.05) / (dark + 0.05);
}

const css = readFileSync(new URL('../../src/lib/ui/theme.css', import.meta.url), 'utf8');
function colours(selector: string): Record<string, string> {
	const from = css.indexOf(`${selector} {`);
	expect(from, `${selector} is in theme.css`).toBeGreaterThan(-1);
	const block = css.slice(from, css.indexOf('}', from));
	return Object.fromEntries(
		[...block.matchAll(/--([a-z-]+): (#[0-9a-f]{6});/g)].map(([, name, value]) => [name, value])
	);
}

const day = colours(':root');
const night = colours(":root[data-look='night']");
const grounds = ['paper', 'leaf', 'wash', 'heed-wash', 'alarm-wash'];

describe('contrast', () => {
	// WCAG itself: black on white is 21:1.
	it('contrast(black, white) is 21', () => expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 5));

	for (const [look, theme] of [
		['day', day],
		['night', night]
	] as const) {
		for (const ink of ['ink', 'soft', 'accent', 'well', 'heed', 'alarm']) {
			for (const ground of grounds.slice(0, 3)) {
				it(`${ink} on ${ground} by ${look} is at least 7:1`, () => {
					expect(contrast(theme[ink] ?? '', theme[ground] ?? '')).toBeGreaterThanOrEqual(7);
				});
			}
		}
		it(`words on coloured ground by ${look} are at least 7:1`, () => {
			expect(contrast(theme['on-accent'] ?? '', theme.accent ?? '')).toBeGreaterThanOrEqual(7);
			for (const ground of grounds)
				expect(contrast(theme.ink ?? '', theme[ground] ?? '')).toBeGreaterThanOrEqual(7);
			expect(contrast(theme.heed ?? '', theme['heed-wash'] ?? '')).toBeGreaterThanOrEqual(7);
			expect(contrast(theme.alarm ?? '', theme['alarm-wash'] ?? '')).toBeGreaterThanOrEqual(7);
			expect(contrast(theme['mark-ink'] ?? '', theme['mark-ground'] ?? '')).toBeGreaterThanOrEqual(7);
		});
		// WCAG 2.2, 1.4.11: the edge of a field is at least 3:1.
		it(`edges of fields by ${look} are at least 3:1`, () => {
			for (const ground of ['paper', 'leaf']) {
				expect(contrast(theme.edge ?? '', theme[ground] ?? '')).toBeGreaterThanOrEqual(3);
			}
		});
	}

	it('night chosen by hand is the night that the device asks for', () => {
		expect(colours(":root:not([data-look='day'])")).toEqual(night);
		expect(Object.keys(day).sort()).toEqual(Object.keys(night).sort());
	});
});
