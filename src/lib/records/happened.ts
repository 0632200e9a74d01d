/**
 * When something happened, read from ISO 8601-2 (as restricted in SPEC R30) into the interval from its first to its
 * last possible moment.
 */
import { Temporal } from 'temporal-polyfill';

export interface When {
	/** First possible moment, ms since 1970. */
	readonly first: number;
	/** Last possible moment, ms since 1970; not before `first`. */
	readonly last: number;
	/** As written. */
	readonly text: string;
}

const exactMoment =
	/^(\d{4})-(\d\d)-(\d\d)T(\d\d):(\d\d)(?::(\d\d)(?:\.(\d{1,3}))?)?(?:Z|([+-])(\d\d):(\d\d))$/;
const partialDate = /^(\d{4})(?:-(\d\d)(?:-(\d\d))?)?([~?%]?)$/;
/** Longer text is no date; the bound keeps a hostile one from costing anything. */
const longestText = 64;

/**
 * Reads `happened`: which moments are meant by this date, time or interval?
 *
 * Exact moments have an offset; days, months and years, plain or approximate (`~`, `?`, `%`), and intervals (`a/b`)
 * have their edges in the club's time zone. An approximate day reaches three days either side, an approximate month
 * one month, an approximate year one year (own choice, common practice, no source).
 * Source: ISO 8601-2:2019, clauses on extended date/time formats.
 *
 * @param text as written; at most 64 characters
 * @param timeZone IANA name, for dates without an offset
 * @returns the interval, or null for text that is no such date
 */
export function happened(text: string, timeZone: string): When | null {
	if (text.length > longestText) return null;
	const moment = readMoment(text);
	if (moment !== null) return { first: moment, last: moment, text };
	const key = `${timeZone}|${text}`;
	const cached = cache.get(key);
	if (cached !== undefined) return cached;
	const when = readInterval(text, timeZone);
	// Dates recur by the thousand in a club's record; the bound keeps a hostile ledger from filling memory.
	if (cache.size > 20_000) cache.clear();
	cache.set(key, when);
	return when;
}

const cache = new Map<string, When | null>();

/** Read by hand: browsers do not agree on the 30th of February. */
function readMoment(text: string): number | null {
	if (text.length < 17) return null;
	const found = exactMoment.exec(text);
	if (!found) return null;
	const [, year, month, day, hour, minute, second = '0', fraction = '0', sign, offsetHour, offsetMinute] =
		found;
	if (!isDay(Number(year), Number(month), Number(day))) return null;
	if (Number(hour) > 23 || Number(minute) > 59 || Number(second) > 59) return null;
	if (Number(offsetHour ?? 0) > 23 || Number(offsetMinute ?? 0) > 59) return null;
	const local = utc(Number(year), Number(month), Number(day));
	const time = (Number(hour) * 60 + Number(minute)) * 60_000 + Number(second) * 1000;
	const offset = sign ? (Number(offsetHour) * 60 + Number(offsetMinute)) * 60_000 : 0;
	return local + time + Number(fraction.padEnd(3, '0')) - (sign === '-' ? -offset : offset);
}

function readInterval(text: string, timeZone: string): When | null {
	const parts = text.split('/');
	if (parts.length !== 2) return readPartial(text, timeZone);
	const from = happened(parts[0] ?? '', timeZone);
	const to = happened(parts[1] ?? '', timeZone);
	return from && to && from.first <= to.last ? { first: from.first, last: to.last, text } : null;
}

function readPartial(text: string, timeZone: string): When | null {
	const found = partialDate.exec(text);
	if (!found) return null;
	const [, year, month, day, approximate] = found;
	if (!isDay(Number(year), Number(month ?? 1), Number(day ?? 1))) return null;
	const start = Temporal.PlainDate.from({
		year: Number(year),
		month: Number(month ?? 1),
		day: Number(day ?? 1)
	});
	const unit = day ? { days: 1 } : month ? { months: 1 } : { years: 1 };
	const slack = !approximate ? { days: 0 } : day ? { days: 3 } : unit;
	try {
		const first = start.subtract(slack).toZonedDateTime(timeZone).epochMilliseconds;
		const after = start.add(unit).add(slack).toZonedDateTime(timeZone).epochMilliseconds;
		return { first, last: after - 1, text };
	} catch {
		return null; // a time zone that this device does not know
	}
}

function isDay(year: number, month: number, day: number): boolean {
	if (month < 1 || month > 12 || day < 1) return false;
	const long = month === 4 || month === 6 || month === 9 || month === 11 ? 30 : 31;
	const isLeap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
	return day <= (month === 2 ? (isLeap ? 29 : 28) : long);
}

/** `Date.UTC` takes years below 100 for those of the last century. */
function utc(year: number, month: number, day: number): number {
	return year > 99 ? Date.UTC(year, month - 1, day) : new Date(0).setUTCFullYear(year, month - 1, day);
}
