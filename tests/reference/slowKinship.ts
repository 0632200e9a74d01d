/**
 * The slow, obvious version of kinship for single fish: the definition itself, as a recursion on the younger of the
 * two with everything remembered. Malécot 1948; Karigl 1981, Annals of Human Genetics 45:299 (from memory).
 */
import type { FishRecord } from '#genetics/individuals/pedigree.ts';

export function slowKinship(fish: readonly FishRecord[]): (a: string, b: string) => number {
	const records = new Map(fish.map((one) => [one.id, one]));
	const depths = new Map<string, number>();
	const depth = (id: string | null): number => {
		if (id === null) return -1;
		if (!depths.has(id)) {
			const { mother, father } = records.get(id)!;
			depths.set(id, 1 + Math.max(depth(mother), depth(father)));
		}
		return depths.get(id)!;
	};
	const known = new Map<string, number>();
	const phi = (a: string | null, b: string | null): number => {
		if (a === null || b === null) return 0;
		const key = JSON.stringify([a, b].sort());
		let value = known.get(key);
		if (value === undefined) {
			const [older, younger] = depth(a) <= depth(b) ? [a, b] : [b, a];
			const { mother, father } = records.get(younger)!;
			value = a === b ? (1 + phi(mother, father)) / 2 : (phi(older, mother) + phi(older, father)) / 2;
			known.set(key, value);
		}
		return value;
	};
	return phi;
}
