/** What forms and the JSON interface take, with the limits of the entries that they end in. */
import { z } from 'zod';
import { AppError } from '../appError.ts';

const clean = (text: string) => !text.includes('\u0000') && text.isWellFormed();

/** Id of a club, member, room, line, meeting, entry. */
export const idField = z.string().min(1).max(64).refine(clean);
/** Words that must be there. */
export const words = z.string().trim().min(1).max(200).refine(clean);
/** Words that may be missing. */
export const wordsOrNothing = z.string().trim().max(200).refine(clean);
export const idOrNothing = z.union([z.literal(''), idField]).transform((id) => (id === '' ? null : id));

/** A place: a region at most. A number in it means a street or a post code. */
export const regionField = wordsOrNothing.transform((text) => {
	if (/\p{N}/u.test(text)) throw new AppError('region-too-fine');
	return text;
});

export const roleField = z.enum(['officer', 'coordinator', 'deputy', 'runner']);

/** @throws AppError `not-understood` */
export function timeZoneField(text: string): string {
	try {
		return new Intl.DateTimeFormat('en', { timeZone: text }).resolvedOptions().timeZone;
	} catch {
		throw new AppError('not-understood', 'timeZone');
	}
}
