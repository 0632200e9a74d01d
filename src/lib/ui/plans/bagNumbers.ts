/**
 * Numbers of the bags of a plan, from 1. Fish of two rooms never travel in one bag: what comes to a room from two of
 * them has two numbers, one after the other.
 *
 * @param givers how many rooms give, for each entry of the list
 * @example bagNumbers([1, 2, 1]) // => [[1], [2, 3], [4]]
 */
export function bagNumbers(givers: readonly number[]): number[][] {
	let last = 0;
	return givers.map((count) => Array.from({ length: count }, () => ++last));
}

/** "bag 1", "bags 2 and 3" */
export function bagsCalled(numbers: readonly number[]): string {
	return `${numbers.length === 1 ? 'bag' : 'bags'} ${numbers.join(' and ')}`;
}
