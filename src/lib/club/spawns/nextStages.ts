import type { FishGroup, Stage } from '#records/state.ts';
import { broodClock } from './broodClock.ts';
import { stageOrder } from './expectedStages.ts';

/**
 * Which stages may come next for a brood, the likeliest first? Livebearers have no eggs; only annual killifish rest in
 * peat. A stage may be skipped: the later ones are offered too.
 */
export function nextStages(fishGroup: FishGroup, now: Stage | null): Stage[] {
	const drops = broodClock[fishGroup].sort === 'drop';
	const own = stageOrder.filter((stage) => {
		if (stage === 'eggs in peat') return fishGroup === 'annual killifish';
		return !drops || stageOrder.indexOf(stage) >= stageOrder.indexOf('free-swimming');
	});
	if (now === 'ended') return [];
	if (now === null)
		return own.filter((stage) => stage === 'growing on' || stage === 'sexed' || stage === 'adult');
	return own.filter((stage) => stageOrder.indexOf(stage) > stageOrder.indexOf(now));
}
