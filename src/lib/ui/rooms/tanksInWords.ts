/**
 * Free tanks as a room says them.
 *
 * @example
 * tanksInWords(1) // => '1 tank free for newcomers'
 */
export function tanksInWords(tanks: number): string {
	return `${tanks === 0 ? 'no tanks' : tanks === 1 ? '1 tank' : `${tanks} tanks`} free for newcomers`;
}
