import { expect } from 'vitest';

/** How far two numbers may be apart: absolutely, or as a share of the expected one. Exactly one is given. */
export type Tolerance = { readonly abs: number } | { readonly rel: number };

/** Expects a number near another; says both, the difference and what was allowed. NaN and infinity never pass. */
export function expectClose(actual: number, expected: number, tolerance: Tolerance, what = 'number'): void {
	const allowed = 'abs' in tolerance ? tolerance.abs : tolerance.rel * Math.abs(expected);
	const difference = Math.abs(actual - expected);
	expect(
		difference <= allowed,
		`${what}: got ${actual}, expected ${expected}, differs by ${difference}, allowed ${allowed}`
	).toBe(true);
}
