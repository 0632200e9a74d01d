/** Random pedigrees for tests: small ones of every shape, and large ones like a population's. */
import fc from 'fast-check';
import type { FishRecord, Pedigree } from '#genetics/individuals/pedigree.ts';
import { randomFrom } from '#genetics/drop/randomFrom.ts';

/** Two numbers for each fish choose its parents among the `reach` fish before it; too high a number = not known. */
export const pedigrees = (reach: number, selfing = false) =>
	fc.array(fc.tuple(fc.nat(reach), fc.nat(reach)), { minLength: 1, maxLength: 60 }).map((choices) =>
		choices.map(([m, f], i): FishRecord => {
			const parent = (back: number) => (back < i && back < reach ? `${i - 1 - back}` : null);
			const mother = parent(m);
			return { id: `${i}`, mother, father: f === m && !selfing ? null : parent(f) };
		})
	);

/** The same fish with their records in another order. */
export const shuffled = (fish: readonly FishRecord[], seed: number): FishRecord[] => {
	const random = randomFrom(seed);
	return fish
		.map((one) => ({ one, at: random() }))
		.sort((a, b) => a.at - b.at)
		.map(({ one }) => one);
};

/**
 * A population of `years` years; parents are of the last `span` years, a fifth of them males; one parent in thirty is
 * not known.
 */
export function population(fish: number, years: number, span: number, seed: number): Pedigree {
	const random = randomFrom(seed);
	const perYear = Math.ceil(fish / years);
	const mother = new Int32Array(fish).fill(-1);
	const father = new Int32Array(fish).fill(-1);
	for (let i = perYear; i < fish; i++) {
		const year = Math.floor(i / perYear);
		const from = Math.max(0, year - span) * perYear;
		const pick = (isMale: boolean) => {
			for (;;) {
				const k = from + Math.floor(random() * (year * perYear - from));
				if ((k % 5 === 0) === isMale) return k;
			}
		};
		if (random() > 1 / 30) mother[i] = pick(false);
		if (random() > 1 / 30) father[i] = pick(true);
	}
	return { ids: Array.from({ length: fish }, (_, i) => `${i}`), mother, father };
}
