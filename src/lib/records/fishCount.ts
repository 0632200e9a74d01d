import type { Fish } from './state.ts';

export const noFish: Fish = { males: 0, females: 0, unsexed: 0 };

export function addFish(a: Fish, b: Fish, sign: 1 | -1 = 1): Fish {
	return {
		males: a.males + sign * b.males,
		females: a.females + sign * b.females,
		unsexed: a.unsexed + sign * b.unsexed
	};
}

export function howManyFish(fish: Fish): number {
	return fish.males + fish.females + fish.unsexed;
}

export function sameFish(a: Fish, b: Fish): boolean {
	return a.males === b.males && a.females === b.females && a.unsexed === b.unsexed;
}

/** `2m 3f 6?`, as it is read everywhere; no fish = `0`. */
export function fishText(fish: Fish): string {
	const parts = [
		fish.males !== 0 ? `${fish.males}m` : '',
		fish.females !== 0 ? `${fish.females}f` : '',
		fish.unsexed !== 0 ? `${fish.unsexed}?` : ''
	].filter(Boolean);
	return parts.length ? parts.join(' ') : '0';
}
