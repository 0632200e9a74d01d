const monthNames = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];
const two = (number: number): string => String(number).padStart(2, '0');

export interface ListDate {
	/** ISO 8601-2; '' = not known. */
	readonly text: string;
	/** One sentence: what is wrong and what to do; '' = nothing. */
	readonly problem: string;
}

/**
 * Since when, in an old list: a year, a month of a year, or a day. `03/04/2024` can be read in two ways, so a person
 * is asked; a day that can only be one thing is taken.
 *
 * @example
 * readListDate('May 2024') // => { text: '2024-05', problem: '' }
 * @example
 * readListDate('about 2019') // => { text: '2019~', problem: '' }
 */
export function readListDate(typed: string): ListDate {
	const said = typed.trim().toLowerCase();
	const about = /^(about|ca\.?|circa|around|~)\s*/.test(said) || /~$/.test(said);
	const text = said.replace(/^(about|ca\.?|circa|around|~|since)\s*/, '').replace(/~$/, '');
	const end = about ? '~' : '';
	if (text === '' || text === '?' || text === '-' || text === 'not known') return { text: '', problem: '' };
	if (/^\d{4}$/.test(text)) return { text: text + end, problem: '' };
	const iso = /^(\d{4})-(\d{1,2})(?:-(\d{1,2}))?$/.exec(text);
	if (iso) return checked(Number(iso[1]), Number(iso[2]), iso[3] ? Number(iso[3]) : 0, end, typed);
	const monthYear = /^(\d{1,2})[./](\d{4})$/.exec(text);
	if (monthYear) return checked(Number(monthYear[2]), Number(monthYear[1]), 0, end, typed);
	const named = /^(?:(\d{1,2})\.?\s+)?([a-z]{3,9})\.?\s+(\d{4})$/.exec(text);
	if (named) {
		const month = monthNames.indexOf((named[2] ?? '').slice(0, 3)) + 1;
		return checked(Number(named[3]), month, named[1] ? Number(named[1]) : 0, end, typed);
	}
	const slashed = /^(\d{1,2})[./](\d{1,2})[./](\d{4})$/.exec(text);
	if (slashed) {
		const [first, second, year] = [Number(slashed[1]), Number(slashed[2]), Number(slashed[3])];
		if (first > 12 || first === second) return checked(year, second, first, end, typed);
		if (second > 12) return checked(year, first, second, end, typed);
		const either = `${year}-${two(second)}-${two(first)} or ${year}-${two(first)}-${two(second)}`;
		return { text: '', problem: `“${typed.trim()}” can be read in two ways: write ${either}.` };
	}
	return unreadable(typed);
}

function checked(year: number, month: number, day: number, end: string, typed: string): ListDate {
	if (month < 1 || month > 12) return unreadable(typed);
	const lastDay = new Date(Date.UTC(year, month, 0)).getUTCDate();
	if (day > lastDay) return unreadable(typed);
	return { text: `${year}-${two(month)}${day ? `-${two(day)}` : ''}${end}`, problem: '' };
}

function unreadable(typed: string): ListDate {
	return {
		text: '',
		problem: `“${typed.trim()}” cannot be read as a date: write it like 2024-05, or leave it empty.`
	};
}
