import { months } from './dateWords.ts';

/**
 * The day on which a sheet was printed, with its year: paper is read long after.
 *
 * @example
 * printedOn(new Date(2026, 10, 25)) // => '25 November 2026'
 */
export function printedOn(now: Date): string {
	return `${now.getDate()} ${months[now.getMonth()]} ${now.getFullYear()}`;
}
