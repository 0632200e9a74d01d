/** Entries for tests of the ledger: the same every time for the same numbers. */
import type { Entry } from '#records/entry.ts';

/** A UUID version 7 of a time and a number. */
export function entryId(number: number, time = 1_700_000_000_000): string {
	const hex = time.toString(16).padStart(12, '0');
	const rest = number.toString(16).padStart(12, '0');
	return `${hex.slice(0, 8)}-${hex.slice(8)}-7000-8000-${rest}`;
}

export function entry(number: number, overrides: Partial<Entry> = {}): Entry {
	return {
		id: entryId(number),
		kind: 'group/counted',
		version: 1,
		by: 'ann',
		device: 'ann-phone',
		happened: '2023-11-14',
		about: [],
		body: { number },
		...overrides
	};
}

export const entryText = (number: number, overrides: Partial<Entry> = {}) =>
	JSON.stringify(entry(number, overrides));
