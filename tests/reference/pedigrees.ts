/** Pedigrees and series from outside the project, retyped as [id, father, mother], each with its source. */
import type { FishRecord } from '#genetics/individuals/pedigree.ts';

type Row = readonly [id: string, father: string | null, mother: string | null];
export const fishOf = (rows: readonly Row[]): FishRecord[] =>
	rows.map(([id, father, mother]) => ({ id, mother, father }));

/** Henderson 1976, Biometrics 32:69 = Mrode 2005, chapter 2. */
export const sixAnimals = fishOf([
	['1', null, null],
	['2', null, null],
	['3', '1', '2'],
	['4', '1', null],
	['5', '4', '3'],
	['6', '5', '2']
]);
/** Its relationships (2 x kinship) and inbreeding; the matrix recomputed with another program. */
export const sixAnimalsRelationship: readonly (readonly [string, string, number])[] = [
	['1', '6', 0.25],
	['2', '6', 0.625],
	['3', '6', 0.5625],
	['4', '6', 0.3125],
	['5', '6', 0.6875],
	['5', '4', 0.625],
	['5', '5', 1.125],
	['6', '6', 1.125]
];

/** Full sibs mated each generation, after Wright 1921; Falconer & Mackay 1996, chapter 5 (from memory). */
export const fullSibSeries = [
	...[0, 1 / 4, 3 / 8, 1 / 2, 19 / 32, 43 / 64, 47 / 64, 201 / 256],
	...[423 / 512, 55 / 64, 1815 / 2048, 3719 / 4096]
];
/** Half sibs mated each generation: recursion read in a text that cites Crow & Kimura; numbers recomputed. */
export const halfSibSeries = [0, 1 / 8, 7 / 32, 39 / 128, 195 / 512, 919 / 2048, 4171 / 8192];
/** Daughter after daughter to one outbred father: Falconer & Mackay 1996 (from memory), recomputed. */
export const backcrossSeries = [0, 1 / 4, 3 / 8, 7 / 16, 15 / 32, 31 / 64, 63 / 128, 127 / 256];

/** Brother and sister of each generation are the parents of the next; `a5` is of the fifth. */
export function fullSibLine(generations: number): FishRecord[] {
	const rows: Row[] = [
		['a0', null, null],
		['b0', null, null]
	];
	for (let t = 1; t <= generations; t++)
		for (const sib of ['a', 'b']) rows.push([`${sib}${t}`, `a${t - 1}`, `b${t - 1}`]);
	return fishOf(rows);
}

/** Each young of a generation has the two neighbours in a ring as parents: circular mating. */
export function ringOf(size: number, generations: number): FishRecord[] {
	const rows: Row[] = Array.from({ length: size }, (_, k): Row => [`0 ${k}`, null, null]);
	for (let t = 1; t <= generations; t++)
		for (let k = 0; k < size; k++) rows.push([`${t} ${k}`, `${t - 1} ${k}`, `${t - 1} ${(k + 1) % size}`]);
	return fishOf(rows);
}
/**
 * Mean inbreeding in a ring of 8 by generation, and the rate at which it goes up in the end by size of the ring.
 * Kimura & Crow 1963, Genetical Research 4, "On the maximum avoidance of inbreeding" (abstract read): the rate is
 * near pi² / (2N + 4)²; numbers by a recursion of our own.
 */
export const ringOfEight = [0, 0.125, 0.1875, 0.2422, 0.2852, 0.3213, 0.3521];
export const ringRates: readonly (readonly [size: number, rate: number])[] = [
	[4, 0.072681],
	[6, 0.039441],
	[8, 0.024933],
	[12, 0.012624],
	[16, 0.007621]
];

/** Wray 1990, Biometrics 46:177, the example; parents read in a text that cites it, inbreeding recomputed. */
export const eightAnimals = fishOf([
	['1', null, null],
	['2', null, null],
	['3', '2', '1'],
	['4', '2', '1'],
	['5', '3', '4'],
	['6', '2', '4'],
	['7', '5', '6'],
	['8', '5', '7']
]);

/** Pairs in a ring: each has a son, who stays, and a daughter, who goes to the son of the pair before. */
export function pairRingOf(size: number, generations: number): FishRecord[] {
	const rows: Row[] = Array.from({ length: size }, (_, k): Row => [`0 ${k}`, null, null]);
	for (let t = 1; t <= generations; t++)
		for (let k = 0; k < size; k += 2)
			for (const pair of [k, (k + 2) % size])
				rows.push([`${t} ${pair === k ? k : k + 1}`, `${t - 1} ${pair}`, `${t - 1} ${pair + 1}`]);
	return fishOf(rows);
}
/** As for the rings above: Kimura & Crow 1963 (abstract read), numbers by a recursion of our own. */
export const pairRingOfEight = [0, 0, 0.0625, 0.0938, 0.125, 0.1562, 0.1855];
export const pairRingRates: readonly (readonly [size: number, rate: number])[] = [
	[8, 0.034748],
	[12, 0.020837],
	[16, 0.014248],
	[24, 0.00808]
];

/** Mates share no ancestor for as long as can be: N a power of 2, each pair has two young, half a generation apart. */
export function avoiding(size: number, generations: number): FishRecord[] {
	const rows: Row[] = Array.from({ length: size }, (_, k): Row => [`0 ${k}`, null, null]);
	for (let t = 1; t <= generations; t++)
		for (let k = 0; k < size; k++) {
			const pair = 2 * (k % (size / 2));
			rows.push([`${t} ${k}`, `${t - 1} ${pair}`, `${t - 1} ${pair + 1}`]);
		}
	return fishOf(rows);
}
/** Maximum avoidance: inbreeding goes up by about 1/(4N) in the end (Kimura & Crow 1963, abstract read). */
export const avoidingRates = [8, 16, 32].map((size) => [size, 1 / (4 * size)] as const);
