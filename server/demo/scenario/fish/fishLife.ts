/** How each kind of fish lives in the demo club. Days and numbers: common practice, no source; shortened to a story. */
import type { Fish, FishGroup, Stage } from '#records/state.ts';

export interface StageAhead {
	readonly stage: Stage;
	/** Days after the spawn. */
	readonly day: number;
	/** How many of ten are alive then, of those at the stage before. */
	readonly ofTen: number;
}

export interface FishLife {
	readonly sort: 'spawn' | 'drop';
	readonly first: Stage;
	/** Eggs or young that are seen, fewest and most. */
	readonly brood: readonly [number, number];
	/** Days between spawns that somebody writes down. */
	readonly everyDays: number;
	readonly stages: readonly StageAhead[];
	/** Days until young may be the next breeding group. */
	readonly matureDays: number;
	/** Days after which the next generation takes over. */
	readonly generationDays: number;
	readonly founders: Fish;
	/** Days that eggs rest in damp peat; none = hatched at once. */
	readonly peatDays?: readonly [number, number];
	/** Days for which a female may keep sperm. */
	readonly storedSpermDays: number;
}

const fish = (males: number, females: number): Fish => ({ males, females, unsexed: 0 });
const at = (stage: Stage, day: number, ofTen: number): StageAhead => ({ stage, day, ofTen });

export const fishLife: { readonly [Group in FishGroup]?: FishLife } = {
	guppy: {
		...{ sort: 'drop', first: 'free-swimming', brood: [14, 38], everyDays: 95, storedSpermDays: 300 },
		...{ stages: [at('growing on', 14, 8), at('sexed', 36, 9)], matureDays: 75, generationDays: 240 },
		founders: fish(3, 5)
	},
	livebearer: {
		...{ sort: 'drop', first: 'free-swimming', brood: [18, 45], everyDays: 110, storedSpermDays: 300 },
		...{ stages: [at('growing on', 20, 8), at('sexed', 90, 8)], matureDays: 150, generationDays: 360 },
		founders: fish(2, 5)
	},
	goodeid: {
		...{ sort: 'drop', first: 'free-swimming', brood: [7, 24], everyDays: 120, storedSpermDays: 0 },
		...{ stages: [at('growing on', 21, 9), at('sexed', 84, 9)], matureDays: 160, generationDays: 390 },
		founders: fish(4, 6)
	},
	bristlenose: {
		...{ sort: 'spawn', first: 'laid', brood: [40, 95], everyDays: 150, storedSpermDays: 0 },
		...{
			stages: [at('hatched', 5, 8), at('free-swimming', 12, 9), at('growing on', 45, 7), at('sexed', 190, 6)]
		},
		...{ matureDays: 340, generationDays: 480 },
		founders: fish(2, 4)
	},
	'annual killifish': {
		...{ sort: 'spawn', first: 'laid', brood: [50, 120], everyDays: 140, storedSpermDays: 0 },
		...{ stages: [at('hatched', 0, 4), at('sexed', 30, 7)], matureDays: 42, generationDays: 150 },
		...{ founders: fish(2, 5), peatDays: [95, 160] }
	},
	killifish: {
		...{ sort: 'spawn', first: 'laid', brood: [15, 40], everyDays: 130, storedSpermDays: 0 },
		...{ stages: [at('hatched', 16, 7), at('growing on', 40, 8), at('sexed', 100, 8)] },
		...{ matureDays: 160, generationDays: 330 },
		founders: fish(2, 3)
	},
	rainbowfish: {
		...{ sort: 'spawn', first: 'laid', brood: [40, 110], everyDays: 160, storedSpermDays: 0 },
		...{ stages: [at('hatched', 8, 6), at('growing on', 50, 6), at('sexed', 170, 6)] },
		...{ matureDays: 250, generationDays: 420 },
		founders: fish(4, 5)
	},
	'dwarf cichlid': {
		...{ sort: 'spawn', first: 'laid', brood: [35, 90], everyDays: 120, storedSpermDays: 0 },
		...{
			stages: [at('hatched', 3, 8), at('free-swimming', 8, 8), at('growing on', 40, 6), at('sexed', 150, 6)]
		},
		...{ matureDays: 210, generationDays: 360 },
		founders: fish(2, 3)
	}
};
