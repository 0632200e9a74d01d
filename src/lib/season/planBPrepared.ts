import { bagsOfKeys } from '#planning/season/bagsOfKeys.ts';
import type { PlanBAnswer } from '#planning/season/planB.ts';
import type { SeasonProblem } from '#planning/season/season.ts';
import { seasonFigures } from '#planning/season/seasonFigures.ts';
import { seasonStops } from '#planning/season/seasonStops.ts';
import { givingRooms } from '#planning/season/traffic.ts';
import { wishesNotKept } from '#planning/season/wishesKept.ts';

/**
 * Plan B as prepared: which of the answers fits now that a bag was refused, or a room is out?
 *
 * The bags that each of them puts in the place of others, beside those that stand: the best one that nothing stands
 * against, that gives up no wish that what stands keeps, and that is better than what stands alone.
 *
 * @param problem that of the repair, where what was refused is ruled out
 * @param stands keys of the bags that stand
 * @returns keys of what stands and of what comes beside it; null = none fits
 */
export function planBPrepared(
	problem: SeasonProblem,
	stands: readonly string[],
	answers: readonly PlanBAnswer[]
): string[] | null {
	const standing = bagsOfKeys(problem, stands);
	const isStanding = ({ case: of }: PlanBAnswer) =>
		of.if === 'refused'
			? stands.includes(of.bag)
			: standing.some((bag) =>
					[...givingRooms(problem, bag), problem.holdings[bag.holding]!.room].some(
						(room) => problem.rooms[room]!.id === of.room
					)
				);
	const givenUp = wishesNotKept(problem, standing);
	let best: string[] | null = null;
	let least = seasonFigures(problem, standing).objective;
	for (const answer of answers) {
		// What was prepared for a bag or a room that stands is for another day.
		if (isStanding(answer)) continue;
		const all = [...stands, ...answer.keys.filter((key) => !stands.includes(key))];
		const bags = bagsOfKeys(problem, all);
		if (all.length === stands.length || bags.length < all.length) continue;
		if (seasonStops(problem, bags).some(({ stop }) => stop !== 'wish' && stop !== 'tooClose')) continue;
		if (wishesNotKept(problem, bags).some((wish) => !givenUp.includes(wish))) continue;
		const { objective } = seasonFigures(problem, bags);
		if (objective < least) [best, least] = [all, objective];
	}
	return best;
}
