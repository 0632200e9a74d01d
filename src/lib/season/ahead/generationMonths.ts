import type { FishGroup } from '#records/state.ts';

/** Months from one generation to the next, as clubs plan it; the middle of what is usual (from memory). */
export const generationMonths: { readonly [Group in FishGroup]: number } = {
	bristlenose: 13,
	guppy: 5,
	livebearer: 8,
	goodeid: 10,
	killifish: 10,
	'annual killifish': 8,
	rainbowfish: 12,
	'dwarf cichlid': 10,
	corydoras: 16,
	other: 12
};
