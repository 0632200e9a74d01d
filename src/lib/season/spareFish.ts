import type { Fish, Group } from '#records/state.ts';

/**
 * What a group keeps when it gives fish that nobody offered: two males and three females, or six not sexed, which
 * are a pair at least with 95 in 100 chances (own arithmetic, exact binomial); own choice.
 */
const breedingMinimum: Fish = { males: 2, females: 3, unsexed: 6 };

export interface Spare {
	readonly fish: Fish;
	/** `offered` by its keeper, or what is left beyond a breeding minimum. */
	readonly why: 'offered' | 'beyond the minimum';
}

/**
 * Spare fish: how many can this group give?
 *
 * What its keeper has offered, as long as the offer lasts and no more than are there; else what is beyond the
 * breeding minimum. What open exchanges promise is taken off.
 *
 * @param when the day of the bags, ms since 1970
 * @param endOf last moment of an ISO date in the club's time zone
 */
export function spareFish(group: Group, promised: Fish, when: number, endOf: (day: string) => number): Spare {
	const there = group.now.fish;
	const { spare } = group;
	const lasts = spare !== null && (spare.until === '' || endOf(spare.until) >= when);
	const each = (of: (sex: keyof Fish) => number): Fish => ({
		males: Math.max(0, of('males')),
		females: Math.max(0, of('females')),
		unsexed: Math.max(0, of('unsexed'))
	});
	if (lasts)
		return {
			fish: each((sex) => Math.min(spare.fish[sex], there[sex]) - promised[sex]),
			why: 'offered'
		};
	// With a pair or more told apart, the unsexed fish beside them need not be kept.
	const isBreeding = there.males >= breedingMinimum.males && there.females >= breedingMinimum.females;
	return {
		fish: each((sex) => {
			const keep = sex === 'unsexed' && isBreeding ? 0 : breedingMinimum[sex];
			return there[sex] - keep - promised[sex];
		}),
		why: 'beyond the minimum'
	};
}
