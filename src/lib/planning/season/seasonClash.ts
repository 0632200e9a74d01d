import type { SeasonProblem } from './season.ts';
import type { SeasonSolver } from './seasonSolver.ts';

/**
 * Which wishes clash? All of these cannot be kept; leaving out any one of them, the others can.
 *
 * Method: deletion filter: each wish in turn is left out for good if the others clash without it. Source: Chinneck &
 * Dravnieks 1991, ORSA Journal on Computing 3:157 (from memory). Cost: one run of the solver for each wish.
 */
export function wishesThatClash({ wishes }: SeasonProblem, search: SeasonSolver): string[] {
	let left = wishes.map(({ id }) => id);
	const without = (ids: readonly string[]) => wishes.map(({ id }) => id).filter((id) => !ids.includes(id));
	for (const { id } of wishes) {
		const fewer = left.filter((one) => one !== id);
		if (!search.canKeepAll(without(fewer))) left = fewer;
	}
	return left;
}
