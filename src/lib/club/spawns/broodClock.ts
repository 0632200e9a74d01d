import type { FishGroup, Stage } from '#records/state.ts';

/** Days after `from` at which a stage is reached, earliest and latest. */
export interface StageClock {
	readonly stage: Stage;
	readonly from: 'start' | Stage;
	readonly days: readonly [earliest: number, latest: number];
}
export interface BroodClock {
	/** Livebearers drop young; the others lay eggs. */
	readonly sort: 'spawn' | 'drop';
	readonly stages: readonly StageClock[];
	/** Youngest age of a parent, days. */
	readonly breedsFromDays: number;
	/** How far back a father is possible, days: stored sperm, or the brood that a mother already carries. */
	readonly fatherWindowDays: number;
}

const month = 30.4;
const months = (count: number): number => Math.round(count * month);

/**
 * Defaults by fish group: when is the next stage to be expected, how young may a parent be, how far back is a father
 * possible? Days shorten when warmer and lengthen when cooler; a figure without another mark is from memory, "cp" is
 * common practice, no source.
 */
export const broodClock: { readonly [Group in FishGroup]: BroodClock } = {
	bristlenose: {
		sort: 'spawn',
		stages: [
			// 3 to 5 days at 24 to 27 °C (cp); 5 to 8 days more on yolk (cp); 5 to 8 months.
			{ stage: 'hatched', from: 'start', days: [3, 5] },
			{ stage: 'free-swimming', from: 'hatched', days: [5, 8] },
			{ stage: 'sexed', from: 'start', days: [months(5), months(8)] }
		],
		// About 12 months.
		breedsFromDays: months(12),
		fatherWindowDays: 0
	},
	guppy: {
		sort: 'drop',
		// The male fin changes at 4 to 6 weeks (cp).
		stages: [{ stage: 'sexed', from: 'start', days: [28, 42] }],
		// 8 to 12 weeks.
		breedsFromDays: 56,
		// Stored sperm for about 10 months: López-Sepulcre et al. 2013, Proc. R. Soc. B 280:20131116 (from a summary).
		fatherWindowDays: months(10)
	},
	livebearer: {
		sort: 'drop',
		// 2 to 5 months; late-maturing males exist.
		stages: [{ stage: 'sexed', from: 'start', days: [months(2), months(5)] }],
		// 3 to 6 months.
		breedsFromDays: months(3),
		// Swordtails at least 6 months (Luo et al. 2005, J. Heredity 96:346-355); all are treated as guppies.
		fatherWindowDays: months(10)
	},
	goodeid: {
		sort: 'drop',
		// 2 to 4 months, a notch in the anal fin.
		stages: [{ stage: 'sexed', from: 'start', days: [months(2), months(4)] }],
		// 4 to 8 months.
		breedsFromDays: months(4),
		// No sperm is stored (cp): only the brood that she carries, about 8 weeks (cp).
		fatherWindowDays: 56
	},
	killifish: {
		sort: 'spawn',
		stages: [
			// 10 days to 4 weeks; swims at hatch; 2 to 4 months.
			{ stage: 'hatched', from: 'start', days: [10, 28] },
			{ stage: 'free-swimming', from: 'hatched', days: [0, 1] },
			{ stage: 'sexed', from: 'hatched', days: [months(2), months(4)] }
		],
		// 4 to 6 months.
		breedsFromDays: months(4),
		fatherWindowDays: 0
	},
	'annual killifish': {
		sort: 'spawn',
		stages: [
			// Damp storage for 3 to 9 months by species; swims at hatch; 3 to 5 weeks.
			{ stage: 'hatched', from: 'start', days: [months(3), months(9)] },
			{ stage: 'free-swimming', from: 'hatched', days: [0, 1] },
			{ stage: 'sexed', from: 'hatched', days: [21, 35] }
		],
		// From 17 days: Blažek, Polačik & Reichard 2013, EvoDevo 4:24.
		breedsFromDays: 17,
		fatherWindowDays: 0
	},
	rainbowfish: {
		sort: 'spawn',
		stages: [
			// 4 to 8 days at 28 °C (Humphrey, Klumpp & Pearson 2003, Mar. Freshw. Res. 54:17-25); mostly 7 to 9 at 25.5 °C
			// (Reid & Holdway 1995, Mar. Freshw. Res. 46:475-480), where fry swim within hours; 4 to 8 months.
			{ stage: 'hatched', from: 'start', days: [4, 9] },
			{ stage: 'free-swimming', from: 'hatched', days: [0, 1] },
			{ stage: 'sexed', from: 'hatched', days: [months(4), months(8)] }
		],
		// About 90 days: Humphrey, Klumpp & Pearson 2003.
		breedsFromDays: 90,
		fatherWindowDays: 0
	},
	'dwarf cichlid': {
		sort: 'spawn',
		stages: [
			// 2 to 4 days at 25 to 27 °C; 4 to 6 days; 4 to 7 months.
			{ stage: 'hatched', from: 'start', days: [2, 4] },
			{ stage: 'free-swimming', from: 'hatched', days: [4, 6] },
			{ stage: 'sexed', from: 'hatched', days: [months(4), months(7)] }
		],
		// Apistogramma females from 140 days: Römer, conference abstract, undated.
		breedsFromDays: 140,
		fatherWindowDays: 0
	},
	corydoras: {
		sort: 'spawn',
		stages: [
			// 3 to 5 days at 24 to 26 °C; 2 to 3 days on yolk; 6 to 9 months, seen from above.
			{ stage: 'hatched', from: 'start', days: [3, 5] },
			{ stage: 'free-swimming', from: 'hatched', days: [2, 3] },
			{ stage: 'sexed', from: 'hatched', days: [months(6), months(9)] }
		],
		// 9 to 12 months.
		breedsFromDays: months(9),
		fatherWindowDays: 0
	},
	other: { sort: 'spawn', stages: [], breedsFromDays: 0, fatherWindowDays: 0 }
};
