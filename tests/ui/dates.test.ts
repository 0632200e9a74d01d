import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { happened } from '#records/happened.ts';
import { ageOfWord } from '#ui/shared/ageOfWord.ts';
import { dateWords, dayWords, momentWords } from '#ui/shared/dateWords.ts';
import { aboutWritten, dayWritten, momentWritten } from '#ui/shared/dateWritten.ts';

const now = new Date(2026, 10, 25, 19, 2);
const dayMs = 86_400_000;
const seed = 31;

describe('dates as written', () => {
	it(`momentWritten(at, offset) names the same moment in any offset (seed ${seed})`, () => {
		const moments = fc.date({
			min: new Date(Date.UTC(1990, 0)),
			max: new Date(Date.UTC(2090, 0)),
			noInvalidDate: true
		});
		fc.assert(
			fc.property(moments, fc.integer({ min: -14 * 60, max: 14 * 60 }), (at, offset) => {
				// ECMA-262, Date.parse of the date time string format.
				expect(Date.parse(momentWritten(at, offset))).toBe(at.getTime());
			}),
			{ seed }
		);
	});

	it('everything that DateChoice writes is read by the record', () => {
		for (const text of [
			momentWritten(now),
			momentWritten(now, -210),
			dayWritten(now),
			dayWritten(now, 1),
			aboutWritten(2025, 3),
			aboutWritten(2025, 0)
		]) {
			expect(happened(text, 'Europe/London'), text).not.toBeNull();
		}
	});

	it('dayWritten(at, 1) on the first of March is the last of February', () => {
		expect(dayWritten(new Date(2026, 2, 1), 1)).toBe('2026-02-28');
		expect(dayWritten(new Date(2028, 2, 1), 1)).toBe('2028-02-29');
	});
});

describe('dates as read', () => {
	it.each([
		['2026-11-25', 'today'],
		['2026-11-24', 'yesterday'],
		['2026-03-12', '12 March'],
		['2025-03-12', '12 March 2025'],
		['2026-03', 'March 2026'],
		['2026-03~', 'about March 2026'],
		['2024~', 'about 2024'],
		['2026-11-25~', 'about 25 November'],
		['2026-03-01/2026-03-20', 'between 1 March and 20 March'],
		['last week', 'last week'],
		['2026-13', '2026-13'],
		['', '']
	])('dateWords(%j) is %j', (text, words) => expect(dateWords(text, now)).toBe(words));

	it('momentWords says the clock of the device', () => {
		expect(momentWords(new Date(2026, 10, 25, 8, 5), now)).toBe('today 8:05');
		expect(momentWords(new Date(2025, 0, 2, 21, 45), now)).toBe('2 January 2025 21:45');
	});

	it('dayWords leaves the clock out, and everything else as it is', () => {
		expect(dayWords(new Date(2026, 2, 12, 21, 45).toISOString(), now)).toBe('12 March');
		expect(dayWords('2025-03~', now)).toBe('about March 2025');
		expect(dayWords('', now)).toBe('');
	});

	it('ageOfWord lets a word age: fresh to 90 days, ageing to 180, then not confirmed', () => {
		const after = (days: number) => ageOfWord(now.getTime() - days * dayMs, now);
		expect(after(0)).toEqual({ words: 'confirmed today', age: 'fresh' });
		expect(after(90).age).toBe('fresh');
		expect(after(91)).toEqual({ words: 'confirmed 26 August, 3 months ago', age: 'ageing' });
		expect(after(180).age).toBe('ageing');
		expect(after(258)).toEqual({ words: 'not confirmed since March', age: 'old' });
		expect(after(500)).toEqual({ words: 'not confirmed since July 2025', age: 'old' });
		expect(ageOfWord(null, now)).toEqual({ words: 'never confirmed', age: 'never' });
		// Annual killifish are confirmed for 120 days.
		expect(ageOfWord(now.getTime() - 121 * dayMs, now, 60, 120).age).toBe('old');
	});
});
