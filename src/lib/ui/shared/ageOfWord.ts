import { dateWords, months } from './dateWords.ts';
import { dayWritten } from './dateWritten.ts';

const dayMs = 86_400_000;

export interface AgeSaid {
	readonly words: string;
	readonly age: 'fresh' | 'ageing' | 'old' | 'never';
}

/**
 * How old is somebody's word that fish are still there? Silence must be visible, so the words change as it ages.
 *
 * @param confirmedMs last moment at which somebody said so, ms since 1970; null = nobody ever did
 * @param ageingDays from then on it shows its age (line rules; 90 by default)
 * @param confirmedDays from then on it no longer counts as confirmed (line rules; 180 by default)
 */
export function ageOfWord(
	confirmedMs: number | null,
	now: Date,
	ageingDays = 90,
	confirmedDays = 180
): AgeSaid {
	if (confirmedMs === null) return { words: 'never confirmed', age: 'never' };
	const days = (now.getTime() - confirmedMs) / dayMs;
	const said = new Date(confirmedMs);
	const day = dateWords(dayWritten(said), now);
	if (days <= ageingDays) return { words: `confirmed ${day}`, age: 'fresh' };
	if (days <= confirmedDays)
		return { words: `confirmed ${day}, ${Math.round(days / 30.4)} months ago`, age: 'ageing' };
	const year = said.getFullYear() === now.getFullYear() ? '' : ` ${said.getFullYear()}`;
	return { words: `not confirmed since ${months[said.getMonth()]}${year}`, age: 'old' };
}
