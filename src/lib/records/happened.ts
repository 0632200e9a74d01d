/**
 * When something happened, read from ISO 8601-2 (as restricted in SPEC R30) into the interval from its first to its
 * last possible moment.
 */
import { startOfDay } from './startOfDay.ts';

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

/** Read by hand: browsers do not agree on the 30th of February, and a club's record has moments by the thousand. */
function readMoment(text: string): number | null {
	if (text.length < 17 || !exactMoment.test(text)) return null;
	const [year, month, day] = [digits(text, 0, 4), digits(text, 5, 2), digits(text, 8, 2)];
	const [hour, minute] = [digits(text, 11, 2), digits(text, 14, 2)];
	const hasSeconds = text.charAt(16) === ':';
	const second = hasSeconds ? digits(text, 17, 2) : 0;
	if (!isDay(year, month, day) || hour > 23 || minute > 59 || second > 59) return null;
	const fraction = hasSeconds && text.charAt(19) === '.' ? /^\d+/.exec(text.slice(20))?.[0] : '';
	let offset = 0;
	if (!text.endsWith('Z')) {
		const [hours, minutes] = [digits(text, text.length - 5, 2), digits(text, text.length - 2, 2)];
		if (hours > 23 || minutes > 59) return null;
		offset = (text.charAt(text.length - 6) === '-' ? -1 : 1) * (hours * 60 + minutes) * 60_000;
	}
	const time = (hour * 60 + minute) * 60_000 + second * 1000 + Number((fraction || '0').padEnd(3, '0'));
	return utc(year, month, day) + time - offset;
}

function digits(text: string, from: number, count: number): number {
	let value = 0;
	for (let i = from; i < from + count; i++) value = value * 10 + text.charCodeAt(i) - 48;
	return value;
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
	const [y, m, d] = [Number(year), Number(month ?? 1), Number(day ?? 1)];
	const isAbout = approximate !== '';
	// The calendar of `utc` takes the 0th month and the 35th day for what they come to.
	const edges = day
		? [utc(y, m, d - (isAbout ? 3 : 0)), utc(y, m, d + 1 + (isAbout ? 3 : 0))]
		: month
			? [utc(y, m - (isAbout ? 1 : 0), 1), utc(y, m + 1 + (isAbout ? 1 : 0), 1)]
			: [utc(y - (isAbout ? 1 : 0), 1, 1), utc(y + 1 + (isAbout ? 1 : 0), 1, 1)];
	try {
		const [first = 0, after = 0] = edges.map((midnight) => startOfDay(midnight, timeZone));
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
