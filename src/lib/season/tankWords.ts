import type { TanksFree } from '#club/rooms/tanksFree.ts';
import { dayText } from '#records/dayText.ts';
import { capital, countWords } from './fishWords.ts';

const usual = 'the plan counts with as many as bags may come in';

/** Tank words: where does a plan's number of free tanks in a room come from? One sentence, or two. */
export function tankWords(word: TanksFree | null): string {
	if (!word) return `Nobody has said how many tanks are free: ${usual}.`;
	const said = `${capital(countWords(word.said, 'tank'))} free, said by ${word.name} on ${dayText(dayOf(word))}.`;
	if (word.age === 'too old') return `${said} That is too long ago: ${usual}.`;
	return word.arrived > 0
		? `${said} ${capital(countWords(word.arrived, 'bag'))} came since: ${word.left} left.`
		: said;
}

/** The day as it was written; of something less exact its last day. */
function dayOf({ day, at }: TanksFree): string {
	return /^\d{4}-\d\d-\d\d/.exec(day)?.[0] ?? new Date(at).toISOString().slice(0, 10);
}
