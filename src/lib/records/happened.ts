/**
 * When something happened, read from ISO 8601-2 (as restricted in SPEC R30) into the interval from its first to its
 * last possible moment.
 */
import edtf from 'edtf';
import { Temporal } from 'temporal-polyfill';

export interface When {
	/** First possible moment, ms since 1970. */
	readonly first: number;
	/** Last possible moment, ms since 1970; not before `first`. */
	readonly last: number;
	/** As written. */
	readonly text: string;
}

const exactMoment = /^(\d{4})-(\d\d)-(\d\d)T(\d\d):(\d\d)(?::(\d\d)(?:\.(\d{1,3}))?)?(Z|[+-]\d\d:\d\d)$/;
const plainDay = /^\d{4}-\d\d-\d\d$/;

/**
 * Reads `happened`: which moments are meant by this date, time or interval?
 *
 * Exact moments are read directly; days, months, years, approximate dates (`~`, `?`) and intervals (`a/b`) with the
 * ISO 8601-2 parser `edtf`, and their edges in the club's time zone. An approximate day reaches three days either
 * side, an approximate month one month, an approximate year one year (own choice, common practice, no source).
 * Source: ISO 8601-2:2019, clauses on extended date/time formats.
 *
 * @param text as written; at most 64 characters
 * @param timeZone IANA name, for dates without an offset
 * @returns the interval, or null for text that is no such date
 */
export function happened(text: string, timeZone: string): When | null {
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

function readMoment(text: string): number | null {
	if (!exactMoment.test(text)) return null;
	const value = Date.parse(text);
	return Number.isNaN(value) ? null : value;
}

function readInterval(text: string, timeZone: string): When | null {
	if (text.length > 64) return null;
	const parts = text.split('/');
	if (parts.length === 2) {
		const from = happened(parts[0] ?? '', timeZone);
		const to = happened(parts[1] ?? '', timeZone);
		return from && to && from.first <= to.last ? { first: from.first, last: to.last, text } : null;
	}
	if (plainDay.test(text)) return edges(text, text, timeZone, text);
	return readPartial(text, timeZone);
}

function readPartial(text: string, timeZone: string): When | null {
	const bare = text.replace(/[~?%]$/, '');
	if (!/^\d{4}(-\d\d(-\d\d)?)?$/.test(bare)) return null;
	try {
		edtf(text);
		const spread = bare !== text;
		const parts = bare.split('-').map(Number);
		const start = Temporal.PlainDate.from(
			{ year: parts[0] ?? 0, month: parts[1] ?? 1, day: parts[2] ?? 1 },
			{ overflow: 'reject' }
		);
		const unit = parts.length === 1 ? { years: 1 } : parts.length === 2 ? { months: 1 } : { days: 1 };
		const slack = !spread ? { days: 0 } : parts.length === 3 ? { days: 3 } : unit;
		const end = start.add(unit).subtract({ days: 1 }).add(slack);
		return edges(start.subtract(slack).toString(), end.toString(), timeZone, text);
	} catch {
		return null;
	}
}

function edges(firstDay: string, lastDay: string, timeZone: string, text: string): When | null {
	try {
		const first = Temporal.PlainDate.from(firstDay).toZonedDateTime(timeZone).epochMilliseconds;
		const last =
			Temporal.PlainDate.from(lastDay).add({ days: 1 }).toZonedDateTime(timeZone).epochMilliseconds - 1;
		return { first, last, text };
	} catch {
		return null;
	}
}
