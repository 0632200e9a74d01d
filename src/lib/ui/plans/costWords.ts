import type { SeasonFigures } from '#planning/season/season.ts';

const text = (value: number) => value.toFixed(3);
const count = (n: number, thing: string) => `${n === 1 ? 'one' : n} ${thing}${n === 1 ? '' : 's'}`;

/** What does a change cost or bring, in words and numbers? From one plan to another of the same problem. */
export function costWords(from: SeasonFigures, to: SeasonFigures): string {
	const parts = [
		...meanWords(from.meanAfter, to.meanAfter),
		...more(to.trips.length - from.trips.length, 'trip'),
		...more(to.bags - from.bags, 'bag'),
		...more(holders(to) - holders(from), 'room that holds a line')
	];
	if (parts.length === 0) return 'Costs nothing: as good as before.';
	const sentence = parts.join(', ');
	return `${sentence.charAt(0).toUpperCase()}${sentence.slice(1)}.`;
}

const holders = (figures: SeasonFigures) => figures.lines.reduce((sum, line) => sum + line.holdersAfter, 0);

function meanWords(before: number, after: number): string[] {
	if (text(before) === text(after)) return [];
	return [
		`the next young ${after > before ? 'more' : 'less'} inbred: ${text(after)} instead of ${text(before)} on average`
	];
}

function more(difference: number, thing: string): string[] {
	if (difference === 0) return [];
	const words = count(Math.abs(difference), thing).replace(
		'room that holds a lines',
		'rooms that hold a line'
	);
	return [`${words} ${difference > 0 ? 'more' : 'fewer'}`];
}
