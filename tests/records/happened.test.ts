import edtf from 'edtf';
import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { describe, expect, it } from 'vitest';
import { happened } from '#records/happened.ts';

const two = (n: number) => String(n).padStart(2, '0');
const year = fc.integer({ min: 1900, max: 2100 });
const month = fc.integer({ min: 1, max: 12 });
/** Every second or so is no day at all. */
const day = fc.integer({ min: 1, max: 33 });
const seed = 20261125;

describe('when something happened', () => {
	// Source: ISO 8601-2:2019 as read by the library edtf (inukshuk/edtf.js), whose dates are in UTC.
	it(`[R30] plain years, months and days agree with an independent reader of ISO 8601-2 (seed ${seed})`, () => {
		const date = fc.oneof(
			year.map(String),
			fc.tuple(year, month).map(([y, m]) => `${y}-${two(m)}`),
			fc.tuple(year, month, day).map(([y, m, d]) => `${y}-${two(m)}-${two(d)}`)
		);
		let real = 0;
		fc.assert(
			fc.property(date, (text) => {
				let expected: { min: number; max: number } | null;
				try {
					expected = edtf(text) as { min: number; max: number };
				} catch {
					expected = null;
				}
				// That reader lets 31 April roll over into May; the calendar does not have it.
				const exists = expected && new Date(expected.min).toISOString().startsWith(text);
				const when = happened(text, 'UTC');
				if (!expected || !exists) expect(when).toBeNull();
				else {
					real++;
					expect(when).toEqual({ first: expected.min, last: expected.max, text });
				}
			}),
			{ seed, numRuns: 600 }
		);
		expect(real).toBeGreaterThan(300);
	});

	// Source: Temporal's time zones (IANA data of this machine).
	it(`[R30] a day has the edges that its time zone gives it (seed ${seed})`, () => {
		const zone = fc.constantFrom('Europe/Berlin', 'America/Sao_Paulo', 'Pacific/Auckland', 'Asia/Kathmandu');
		fc.assert(
			fc.property(zone, fc.integer({ min: 0, max: 20_000 }), (timeZone, days) => {
				const date = Temporal.PlainDate.from('1980-01-01').add({ days });
				const start = date.toZonedDateTime({ timeZone });
				expect(happened(date.toString(), timeZone)).toEqual({
					first: start.epochMilliseconds,
					last: start.epochMilliseconds + start.hoursInDay * 3_600_000 - 1,
					text: date.toString()
				});
			}),
			{ seed, numRuns: 300 }
		);
	});

	it('[R30] the day on which summer time begins in Berlin has 23 hours', () => {
		// 29 March 2026, 01:00 UTC: directive 2000/84/EC, last Sunday of March.
		const when = happened('2026-03-29', 'Europe/Berlin');
		expect(when && when.last - when.first + 1).toBe(23 * 3_600_000);
	});

	// Source: ECMA-262, date time string format, as Date.parse of this machine reads it.
	it(`[R30] moments with an offset are one moment (seed ${seed})`, () => {
		const moment = fc.date({ min: new Date('1970-01-01'), max: new Date('2100-01-01'), noInvalidDate: true });
		const offset = fc.integer({ min: -14 * 60, max: 14 * 60 });
		fc.assert(
			fc.property(moment, offset, (date, minutes) => {
				const local = new Date(date.getTime() + minutes * 60_000).toISOString().slice(0, -1);
				const size = Math.abs(minutes);
				const zone = `${minutes < 0 ? '-' : '+'}${two(Math.floor(size / 60))}:${two(size % 60)}`;
				for (const text of [date.toISOString(), local + zone, local.slice(0, 16) + zone]) {
					const expected = Date.parse(text);
					expect(happened(text, 'UTC')).toEqual({ first: expected, last: expected, text });
				}
			}),
			{ seed, numRuns: 300 }
		);
	});

	it('[R30] approximate dates reach further both ways; intervals go from first to last', () => {
		const days = (text: string) => {
			const when = happened(text, 'UTC');
			return (
				when && [new Date(when.first), new Date(when.last + 1)].map((date) => date.toISOString().slice(0, 10))
			);
		};
		expect(days('2026-03-14~')).toEqual(['2026-03-11', '2026-03-18']);
		expect(days('2026-03?')).toEqual(['2026-02-01', '2026-05-01']);
		expect(days('2026%')).toEqual(['2025-01-01', '2028-01-01']);
		expect(days('2026-03-01/2026-03-20')).toEqual(['2026-03-01', '2026-03-21']);
		expect(days('2026-02/2026-03-20~')).toEqual(['2026-02-01', '2026-03-24']);
	});

	it.each([
		'',
		'yesterday',
		'2026-13',
		'2026-02-30',
		'2025-02-29',
		'2026-02-30T10:00Z',
		'2026-03-14T24:00Z',
		'2026-03-14T10:60Z',
		'2026-03-14T10:00+24:00',
		'2026-03-14T10:00',
		'2026-03-20/2026-03-01',
		'2026/2027/2028',
		'/2026',
		'20260314',
		'2026-3-14',
		'202X',
		' 2026',
		'2026-03-14Z'
	])('[R30] “%s” cannot be read', (text) => expect(happened(text, 'UTC')).toBeNull());

	it('[R30] a time zone that this device does not know, and endless text, cannot be read either', () => {
		expect(happened('2026-03-14', 'Moon/Base')).toBeNull();
		expect(happened(`2026-03-14${' '.repeat(100_000)}`, 'UTC')).toBeNull();
	});
});
