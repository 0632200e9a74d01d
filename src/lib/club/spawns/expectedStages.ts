import type { FishGroup, Stage } from '#records/state.ts';
import { dayMs } from '../question.ts';
import { broodClock } from './broodClock.ts';

/** The order in which a brood grows. Eggs in peat rest between laid and hatched; `ended` is not a step. */
export const stageOrder: readonly Stage[] = [
	'laid',
	'eggs in peat',
	'eyed',
	'hatched',
	'free-swimming',
	'growing on',
	'sexed',
	'look known',
	'adult'
];

export interface ExpectedStage {
	readonly stage: Stage;
	/** ms since 1970. */
	readonly earliest: number;
	readonly latest: number;
}
export interface StageReached {
	readonly stage: Stage;
	readonly when: { readonly first: number; readonly last: number };
}

/**
 * Brood clock: when is each next stage to be expected?
 *
 * Each figure counts from the day of a stage that was told, else from the days on which that stage is itself expected.
 * Days are defaults by fish group (broodClock.ts), for 24 to 28 °C: cooler water takes longer.
 *
 * @param reached stages told so far, the first of them the spawn or drop; empty = nothing is expected
 * @returns stages not yet reached that there is a figure for, in order
 */
export function expectedStages(fishGroup: FishGroup, reached: readonly StageReached[]): ExpectedStage[] {
	const start = reached[0];
	if (!start) return [];
	const furthest = Math.max(...reached.map((each) => stageOrder.indexOf(each.stage)));
	const at = new Map<'start' | Stage, readonly [number, number]>();
	at.set('start', [start.when.first, start.when.last]);
	for (const each of reached) at.set(each.stage, [each.when.first, each.when.last]);
	const expected: ExpectedStage[] = [];
	for (const clock of broodClock[fishGroup].stages) {
		const from = at.get(clock.from);
		if (!from || at.has(clock.stage)) continue;
		const [earliest, latest] = [from[0] + clock.days[0] * dayMs, from[1] + clock.days[1] * dayMs];
		at.set(clock.stage, [earliest, latest]);
		if (stageOrder.indexOf(clock.stage) > furthest) expected.push({ stage: clock.stage, earliest, latest });
	}
	return expected;
}
