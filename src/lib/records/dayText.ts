const months = [
	...['January', 'February', 'March', 'April', 'May', 'June', 'July', 'August', 'September', 'October'],
	...['November', 'December']
] as const;

/**
 * A day as a sentence says it, the year always beside it: a sentence may be read years later.
 *
 * @param date ISO 8601 calendar date; any other text comes back as it is
 * @example
 * dayText('2026-12-19') // => '19 December 2026'
 */
export function dayText(date: string): string {
	const [, year, month, day] = /^(\d{4})-(\d\d)-(\d\d)$/.exec(date) ?? [];
	const name = months[Number(month) - 1];
	return name ? `${Number(day)} ${name} ${year}` : date;
}
