import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lineMark } from '#ui/marks/lineMark.ts';

const seed = 417;

describe('line marks', () => {
	it('lineMark(code) gives 1,000 codes of one club marks that are pairwise different', () => {
		const codes = ['BN', 'GO', 'KI', 'MD', 'GU', 'CO', 'RB', 'LV', 'DC', 'ZZ'].flatMap((letters) =>
			Array.from({ length: 100 }, (_, i) => `${letters}-${String(i + 1).padStart(2, '0')}`)
		);
		expect(new Set(codes.map((code) => lineMark(code).path)).size).toBe(1000);
	});

	it(`lineMark(code) depends on the code alone, not on capitals or spaces (seed ${seed})`, () => {
		fc.assert(
			fc.property(fc.string({ minLength: 1, maxLength: 12 }), (code) => {
				const { path } = lineMark(code);
				expect(lineMark(code).path).toBe(path);
				expect(lineMark(`  ${code.toUpperCase()} `).path).toBe(lineMark(code.toUpperCase()).path);
			}),
			{ seed }
		);
	});

	it(`lineMark(code) stays inside its square and is a path that browsers can read (seed ${seed})`, () => {
		fc.assert(
			fc.property(fc.string({ maxLength: 20, unit: 'binary' }), (code) => {
				const { path, size } = lineMark(code);
				expect(path).toMatch(/^([MLHVAZ]|-?\d+(\.\d+)?| )*$/);
				expect(path).not.toContain('NaN');
				for (const number of path.match(/-?\d+(\.\d+)?/g) ?? []) {
					expect(Number(number)).toBeGreaterThanOrEqual(0);
					expect(Number(number)).toBeLessThanOrEqual(size);
				}
			}),
			{ seed }
		);
	});

	it('lineMark(code) is never blank for the codes of 1,000 clubs', () => {
		for (let club = 0; club < 1000; club++) expect(lineMark(`L-${club}`).path.length).toBeGreaterThan(40);
	});
});
