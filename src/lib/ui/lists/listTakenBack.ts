import type { Draft, Entry } from '#records/entry.ts';
import { momentWritten } from '#ui/shared/dateWritten.ts';

/** One word that takes back a part of a list that the club has already. */
export function listTakenBack(entries: readonly Entry[], now = new Date()): readonly Draft[] {
	return [
		{
			kind: 'word/withdrawn',
			happened: momentWritten(now),
			about: [...new Set(entries.flatMap((entry) => entry.about))],
			corrects: entries.map((entry) => entry.id),
			body: { reason: 'The list was taken back' }
		}
	];
}
