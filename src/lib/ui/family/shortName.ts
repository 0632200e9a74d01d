import type { FamilyGroup } from '#pedigree/family/family.ts';
import { months } from '#ui/shared/dateWords.ts';

/**
 * The name of a group under its symbol, where the line is named above: without "of" that line; a group that its keeper
 * never named says when it began.
 *
 * @example
 * shortName({ name: 'brood of Weir cory', at: Date.UTC(2026, 2, 12) } as FamilyGroup, 'Weir cory')
 * // => 'Brood, Mar 2026'
 */
export function shortName(group: Pick<FamilyGroup, 'name' | 'at'>, line: string): string {
	const tail = ` of ${line}`;
	if (!line || !group.name.endsWith(tail)) return group.name;
	const what = group.name.slice(0, -tail.length);
	const named = what.charAt(0).toUpperCase() + what.slice(1);
	if (group.at === null || !Number.isFinite(group.at)) return named;
	const began = new Date(group.at);
	return `${named}, ${months[began.getMonth()]?.slice(0, 3) ?? ''} ${began.getFullYear()}`;
}

/** At most so many letters, the last of them a sign that more follow. */
export function shortened(text: string, letters: number): string {
	const all = [...text];
	return all.length <= letters
		? text
		: `${all
				.slice(0, letters - 1)
				.join('')
				.trimEnd()}…`;
}
