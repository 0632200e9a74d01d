import type { FishGroup } from '#records/state.ts';

const small = 'Up to ten small fish to a litre of water; of 4 to 5 cm, three or four.';
const spiny = 'One grown fish to a bag, and one bag inside another: their spines pierce.';

/**
 * How fish of a group are bagged for a way of up to two hours with air: common practice, no source. Longer ways need
 * oxygen and fewer fish.
 */
export const planPacking: { readonly [Group in FishGroup]: string } = {
	bristlenose: spiny,
	guppy: small,
	livebearer: small,
	goodeid: small,
	killifish: `${small} Eggs travel in damp peat.`,
	'annual killifish': `${small} Eggs travel in damp peat.`,
	rainbowfish: small,
	'dwarf cichlid': 'One grown fish to a bag.',
	corydoras: `${small} One bag inside another: their spines pierce.`,
	other: small
};
