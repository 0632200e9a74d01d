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

/** `2026-03-14T19:20Z` */
const shortestMoment = 17;
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
	if (cache.timeZone !== timeZone || cache.read.size > mostCached) cache = { timeZone, read: new Map() };
	const cached = cache.read.get(text);
	if (cached !== undefined) return cached;
	const when = readInterval(text, timeZone);
	cache.read.set(text, when);
	return when;
}

/** Dates recur by the thousand in a club's record; the bound keeps a hostile ledger from filling memory. */
const mostCached = 20_000;
let cache: { readonly timeZone: string; readonly read: Map<string, When | null> } = {
	timeZone: '',
	read: new Map()
};

/**
 * `2026-03-14T19:20+00:00`, seconds and up to three digits of them if need be, or `Z` for the offset. Read by hand:
 * browsers do not agree on the 30th of February, and a club's record has moments by the hundred thousand.
 */
function readMoment(text: string): number | null {
	if (text.length < shortestMoment) return null;
	if (text.charCodeAt(10) !== letterT || text.charCodeAt(4) !== dash || text.charCodeAt(7) !== dash)
		return null;
	const [year, month, day] = [digits(text, 0, 4), digits(text, 5, 2), digits(text, 8, 2)];
	const time = readTime(text);
	return time === null || year < 0 || month < 0 || day < 0 || !isDay(year, month, day)
		? null
		: utc(year, month, day) + time;
}

/** The time of day in UTC, ms; below 0 or over a day where the offset leads there. */
function readTime(text: string): number | null {
	const [hour, minute] = [digits(text, 11, 2), digits(text, 14, 2)];
	if (text.charCodeAt(13) !== colon || hour < 0 || hour > 23 || minute < 0 || minute > 59) return null;
	let at = 16;
	let ms = 0;
	if (text.charCodeAt(at) === colon) {
		const second = digits(text, 17, 2);
		if (second < 0 || second > 59) return null;
		ms = second * 1000;
		at = 19;
		if (text.charCodeAt(at) === point) {
			let part = 100;
			for (at++; isDigit(text.charCodeAt(at)) && part >= 1; at++, part /= 10)
				ms += part * digits(text, at, 1);
			if (part === 100) return null;
		}
	}
	const offset = readOffset(text, at);
	return offset === null ? null : (hour * 60 + minute - offset) * 60_000 + ms;
}

/** Minutes, from there to the end of the text. */
function readOffset(text: string, at: number): number | null {
	const sign = text.charCodeAt(at);
	if (sign === letterZ) return text.length === at + 1 ? 0 : null;
	if (text.length !== at + 6 || text.charCodeAt(at + 3) !== colon || (sign !== plus && sign !== dash))
		return null;
	const [hours, minutes] = [digits(text, at + 1, 2), digits(text, at + 4, 2)];
	if (hours < 0 || hours > 23 || minutes < 0 || minutes > 59) return null;
	return (sign === dash ? -1 : 1) * (hours * 60 + minutes);
}

const [dash, colon, point, plus, letterT, letterZ] = [45, 58, 46, 43, 84, 90];

function isDigit(code: number): boolean {
	return code >= 48 && code <= 57;
}

/** The number that stands there, or -1 where other signs stand. */
function digits(text: string, from: number, count: number): number {
	let value = 0;
	for (let i = from; i < from + count; i++) {
		const code = text.charCodeAt(i);
		if (!isDigit(code)) return -1;
		value = value * 10 + code - 48;
	}
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
