import { bagByHand } from './bagByHand.ts';
import { readBagKey } from './bagKey.ts';
import type { PossibleBag, SeasonProblem } from './season.ts';

/** The bags of these keys, in their order; those whose fish or room the problem does not know are left out. */
export function bagsOfKeys(problem: SeasonProblem, keys: readonly string[]): PossibleBag[] {
	return keys.flatMap((key) => {
		const read = readBagKey(problem, key);
		return read ? [bagByHand(problem, read)] : [];
	});
}
