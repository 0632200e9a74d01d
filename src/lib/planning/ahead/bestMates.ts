import { assign } from '../assign.ts';

/**
 * A male for every female of a room, males used alike, so that mates are as little related as they can be: exact.
 *
 * Source: least-cost matching, Munkres 1957, Journal of the SIAM 5:32, with a column for each time a male is used.
 *
 * @param males at least 1; females likewise
 * @param kinship of a male and a female, by their places
 * @returns for each female the place of her male
 */
export function bestMates(
	males: number,
	females: number,
	kinship: (male: number, female: number) => number
): Int32Array {
	const times = Math.ceil(females / males);
	const size = males * times;
	// To use a male once more costs more than all kinships together: then males are used alike.
	const cost = (female: number, column: number) =>
		female < females ? kinship(column % males, female) + Math.floor(column / males) * (females + 1) : 0;
	return assign(size, cost)
		.slice(0, females)
		.map((column) => column % males);
}
