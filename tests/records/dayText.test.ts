import { expect, it } from 'vitest';
import { dayText } from '#records/dayText.ts';

it.each([
	['2026-12-19', '19 December 2026'],
	// A leap day of the Gregorian calendar.
	['2028-02-29', '29 February 2028'],
	['2026-13-01', '2026-13-01'],
	['', ''],
	['in spring', 'in spring']
])('dayText(%j) is %j', (date, words) => expect(dayText(date)).toBe(words));
