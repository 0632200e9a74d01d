import type { SexedFish } from '#planning/season/season.ts';

const numbers = [
	...['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten', 'eleven', 'twelve']
];

function numberWord(count: number): string {
	return numbers[count] ?? String(count);
}
export function countWords(count: number, one: string, many = `${one}s`): string {
	return `${numberWord(count)} ${count === 1 ? one : many}`;
}
/** "two males and three females", "six fish not sexed" */
export function fishWords({ males, females, unsexed }: SexedFish): string {
	const parts = [
		males > 0 ? countWords(males, 'male') : '',
		females > 0 ? countWords(females, 'female') : '',
		unsexed > 0 ? `${countWords(unsexed, 'fish', 'fish')} not sexed` : ''
	].filter(Boolean);
	return listed(parts) || 'no fish';
}
export function listed(parts: readonly string[]): string {
	const last = parts.at(-1) ?? '';
	return parts.length < 2 ? last : `${parts.slice(0, -1).join(', ')} and ${last}`;
}
export function capital(text: string): string {
	return text.charAt(0).toUpperCase() + text.slice(1);
}
