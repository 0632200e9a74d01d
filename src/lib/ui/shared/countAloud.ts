import { howManyFish } from '#records/fishCount.ts';
import type { Fish } from '#records/state.ts';

/**
 * How is a count said aloud? For screen readers and for labels without room for figures.
 *
 * @example
 * countAloud({ males: 2, females: 1, unsexed: 6 }) // => '2 males, 1 female, 6 not sexed'
 */
export function countAloud(fish: Fish): string {
	if (howManyFish(fish) === 0) return 'no fish';
	const parts = [
		fish.males ? `${fish.males} ${fish.males === 1 ? 'male' : 'males'}` : '',
		fish.females ? `${fish.females} ${fish.females === 1 ? 'female' : 'females'}` : '',
		fish.unsexed ? `${fish.unsexed} not sexed` : ''
	];
	return parts.filter(Boolean).join(', ');
}
