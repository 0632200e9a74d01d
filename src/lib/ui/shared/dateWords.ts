/** Dates as people read them. */
import { dayWritten } from './dateWritten.ts';

export const months = [
	'January',
	'February',
	'March',
	'April',
	'May',
	'June',
	'July',
	'August',
	'September',
	'October',
	'November',
	'December'
] as const;

const exact = /^\d{4}-\d\d-\d\dT/;
const partial = /^(\d{4})(?:-(\d\d)(?:-(\d\d))?)?([~?%])?$/;

/**
 * How is this date said? Today and yesterday by name; the year only when it is not this one; "about" for what is not
 * exact; both ends of an interval.
 *
 * @param text as written in an entry (ISO 8601-2)
 * @param now what "today" means; moments are said by the clock and calendar of the device
 * @returns words that fit after "on", "since" or alone; the text itself when it is no such date
 * @example
 * dateWords('2026-03-12', new Date(2026, 10, 25)) // => '12 March'
 * @example
 * dateWords('2025-03~', new Date(2026, 10, 25)) // => 'about March 2025'
 * @example
 * dateWords('2026-03-01/2026-03-20', new Date(2026, 10, 25)) // => 'between 1 March and 20 March'
 */
export function dateWords(text: string, now: Date): string {
	const ends = text.split('/');
	if (ends.length === 2)
		return `between ${dateWords(ends[0] ?? '', now)} and ${dateWords(ends[1] ?? '', now)}`;
	if (exact.test(text)) {
		const moment = new Date(text);
		return Number.isNaN(moment.getTime()) ? text : momentWords(moment, now);
	}
	const read = partial.exec(text);
	if (!read) return text;
	const [, year = '', month, day, doubt] = read;
	const about = doubt ? 'about ' : '';
	if (!doubt && day && text === dayWritten(now)) return 'today';
	if (!doubt && day && text === dayWritten(now, 1)) return 'yesterday';
	const monthName = month ? months[Number(month) - 1] : undefined;
	if (month && !monthName) return text;
	const thisYear = Number(year) === now.getFullYear();
	const parts = [day ? String(Number(day)) : '', monthName ?? '', day && thisYear ? '' : year];
	return about + parts.filter(Boolean).join(' ');
}

/**
 * The day alone, for what the hour does not matter to: how long someone has been a member.
 *
 * @example
 * dayWords('2026-03-12T19:02:00Z', new Date(2026, 10, 25)) // => '12 March'
 */
export function dayWords(text: string, now: Date): string {
	const moment = exact.test(text) ? new Date(text) : null;
	return dateWords(moment && !Number.isNaN(moment.getTime()) ? dayWritten(moment) : text, now);
}

/**
 * How is this moment said? "today 19:02", "yesterday 8:15", "12 March 19:02".
 */
export function momentWords(moment: Date, now: Date): string {
	const clock = `${moment.getHours()}:${String(moment.getMinutes()).padStart(2, '0')}`;
	return `${dateWords(dayWritten(moment), now)} ${clock}`;
}
