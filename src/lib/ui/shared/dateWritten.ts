/** Dates as they are written into entries: ISO 8601-2, in the device's own time zone. */

const two = (number: number): string => String(number).padStart(2, '0');

/**
 * Which text stands for this moment, with its offset? To the millisecond: a count and a loss of the same minute must
 * keep their order, or the loss would be taken as already in the count.
 *
 * @example
 * momentWritten(new Date(Date.UTC(2026, 2, 14, 19, 20)), 0) // => '2026-03-14T19:20:00.000+00:00'
 * @param offsetMinutes minutes east of Greenwich; the device's own when left out
 */
export function momentWritten(at: Date, offsetMinutes: number = -at.getTimezoneOffset()): string {
	const local = new Date(at.getTime() + offsetMinutes * 60_000);
	const ahead = Math.abs(offsetMinutes);
	const offset = `${offsetMinutes < 0 ? '-' : '+'}${two(Math.floor(ahead / 60))}:${two(ahead % 60)}`;
	return `${local.toISOString().slice(0, 23)}${offset}`;
}

/**
 * Which text stands for the day so many days before this moment, by the device's calendar?
 */
export function dayWritten(at: Date, daysBefore = 0): string {
	const day = new Date(at.getFullYear(), at.getMonth(), at.getDate() - daysBefore);
	return `${String(day.getFullYear()).padStart(4, '0')}-${two(day.getMonth() + 1)}-${two(day.getDate())}`;
}

/**
 * Which text stands for "about then"? A month or a whole year, approximate.
 *
 * @param month 1 to 12; 0 = only the year is known
 * @example
 * aboutWritten(2026, 3) // => '2026-03~'
 * @example
 * aboutWritten(2025, 0) // => '2025~'
 */
export function aboutWritten(year: number, month: number): string {
	return month === 0 ? `${year}~` : `${year}-${two(month)}~`;
}
